// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/check_of.h"
#include "record/evidence_of_visit.h"
#include "record/withdrawn.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <functional>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;

namespace {

const ChangeReason wrongVehicle{"M.", "typed in for the wrong vehicle"};

/// A vehicle with three visits, a photo in each.
struct ThreeVisits {
    Book book = Book::inMemory();
    std::int64_t vehicle = book.addVehicle(labelled("DEMO-01")).id;

    ThreeVisits() {
        for (const int number : {1, 2, 3}) {
            const std::string date = fmt::format("2025-0{}-14", number);
            const Visit visit = book.addVisit(visitOn(vehicle, date, 1000.0 * number));
            book.addPhoto(newPhoto(visit.id), photoBytes(number), findingOf(photoBytes(number)));
        }
    }
    [[nodiscard]] std::vector<std::int64_t> visits() const {
        std::vector<std::int64_t> numbers;
        for (const Visit& visit : book.visits(vehicle))
            numbers.push_back(visit.id);
        return numbers;
    }
};

} // namespace

TEST_CASE(
    "a withdrawn visit does not count, stays in the book with its reason, and can come back") {
    ThreeVisits three;
    three.book.withdrawVisit(2, wrongVehicle);
    CHECK(three.visits() == std::vector<std::int64_t>{1, 3});
    CHECK(three.book.vehiclesInShort().at(0).visits == 2);
    CHECK(evidenceOfVisit(three.book, 3).earlier.size() == 1);
    CHECK_THROWS_WITH(three.book.visit(2), Contains("by M.: typed in for the wrong vehicle") &&
                                               Contains("visit withdraw 2 --undo"));
    const std::vector<Withdrawal> withdrawn = three.book.withdrawnVisits(three.vehicle);
    REQUIRE(withdrawn.size() == 1);
    CHECK(withdrawn[0].number == 2);
    CHECK(withdrawn[0].reason.by == "M.");
    CHECK(withdrawn[0].reason.why == "typed in for the wrong vehicle");
    CHECK(withdrawn[0].at.size() == 20);

    three.book.bringBackVisit(2, {"M.", ""});
    CHECK(three.visits() == std::vector<std::int64_t>{1, 2, 3});
    CHECK(three.book.visit(2).odometerKm == 2000.0);
    CHECK(three.book.photos(2).size() == 1);
    CHECK(three.book.withdrawnVisits(three.vehicle).empty());
    three.book.withdrawVisit(2, wrongVehicle); // and again
    CHECK(three.visits() == std::vector<std::int64_t>{1, 3});
}

TEST_CASE("the last valid visit is the newest, and a withdrawn odometer does not limit others") {
    ThreeVisits three;
    three.book.withdrawVisit(3, wrongVehicle);
    CHECK(three.book.vehiclesInShort().at(0).lastVisit == "2025-02-14");
    CHECK_NOTHROW(three.book.addVisit(visitOn(three.vehicle, "2025-03-20", 2500.0)));
}

TEST_CASE("a withdrawn photo is in no list, no count and no evidence, and can come back") {
    ThreeVisits three;
    const StoredPhoto photo = three.book.photos(2).at(0);
    three.book.withdrawPhoto(photo.id, {"", "a thumb on the card"});
    CHECK(three.book.photos(2).empty());
    CHECK(three.book.photoCounts(2).empty());
    CHECK(evidenceOfVisit(three.book, 2).now.samples.empty());
    CHECK(three.book.withdrawnPhotos(2).at(0).reason.why == "a thumb on the card");
    CHECK_THROWS_WITH(three.book.addPhoto(newPhoto(2), photoBytes(2), findingOf(photoBytes(2))),
                      Contains("was withdrawn: a thumb on the card") && Contains("--undo"));
    three.book.bringBackPhoto(photo.id, {});
    CHECK(three.book.photos(2).at(0).sha256 == photo.sha256);
}

TEST_CASE("withdrawing needs a reason and an entry that exists and is valid") {
    ThreeVisits three;
    CHECK_THROWS_WITH(three.book.withdrawVisit(2, {"M.", ""}), Contains("Say why"));
    CHECK_THROWS_WITH(three.book.withdrawVisit(9, wrongVehicle), Contains("no visit 9"));
    CHECK_THROWS_WITH(three.book.withdrawPhoto(9, wrongVehicle), Contains("no photo 9"));
    CHECK_THROWS_WITH(three.book.bringBackVisit(2, {}), Contains("is not withdrawn"));
    three.book.withdrawVisit(2, wrongVehicle);
    CHECK_THROWS_WITH(three.book.withdrawVisit(2, wrongVehicle), Contains("withdrawn already"));
    CHECK(three.visits() == std::vector<std::int64_t>{1, 3});
}

TEST_CASE("a vehicle's label, plate, VIN, unit and note can be corrected, and the old ones stay") {
    ThreeVisits three;
    Vehicle vehicle = three.book.vehicle(three.vehicle);
    vehicle.label = "DEMO-10";
    vehicle.plate = "INVENTED 1";
    vehicle.vin = "NOTAREALVIN000001";
    vehicle.unit = "Demo 5";
    three.book.correctVehicle(vehicle, {"M.", "a slip of the finger"});
    const Vehicle now = three.book.vehicleByLabel("demo-10");
    CHECK(now.id == three.vehicle);
    CHECK(now.plate == "INVENTED 1");
    CHECK(now.vin == "NOTAREALVIN000001");
    CHECK(now.unit == "Demo 5");
    CHECK_THROWS_AS(three.book.vehicleByLabel("DEMO-01"), UsageError);
    const std::vector<Correction> before = three.book.correctionsOfVehicle(three.vehicle);
    REQUIRE(before.size() == 1);
    CHECK_THAT(before[0].before, Contains("DEMO-01"));

    const Vehicle other = three.book.addVehicle(labelled("DEMO-11"));
    vehicle.label = "demo-11";
    CHECK_THROWS_WITH(three.book.correctVehicle(vehicle, {}), Contains("already has a vehicle"));
    vehicle.label = "";
    CHECK_THROWS_AS(three.book.correctVehicle(vehicle, {}), UsageError);
    vehicle.label = "Demo-10"; // its own, in other letters
    CHECK(three.book.correctVehicle(vehicle, {}).label == "Demo-10");
    CHECK(other.id != three.vehicle);
}

TEST_CASE("a vehicle added by mistake is in no list, stays with its reason, and can come back") {
    Book book = Book::inMemory();
    Vehicle twice = labelled("DEMO-02");
    twice.plate = "INVENTED 2";
    book.addVehicle(labelled("DEMO-01"));
    const std::int64_t number = book.addVehicle(twice).id;
    book.withdrawVehicle(number, {"M.", "added twice"});
    REQUIRE(book.vehicles().size() == 1);
    CHECK(book.vehicles()[0].label == "DEMO-01");
    CHECK(book.vehiclesInShort().size() == 1);
    for (const auto& asked : std::vector<std::function<void()>>{
             [&] { (void)book.vehicle(number); }, [&] { (void)book.vehicleByLabel("demo-02"); },
             [&] { book.addVisit(visitOn(number, "2025-03-14")); },
             [&] { book.nameUnit("DEMO-02", "Demo 5"); }})
        CHECK_THROWS_WITH(asked(), Contains("by M.: added twice") &&
                                       Contains("vehicle withdraw \"DEMO-02\" --undo"));
    const auto withdrawn = book.withdrawnVehicles();
    REQUIRE(withdrawn.size() == 1);
    CHECK(withdrawn[0].vehicle.plate == "INVENTED 2");
    CHECK(withdrawn[0].reason.by == "M.");
    CHECK(withdrawn[0].reason.why == "added twice");
    CHECK(withdrawn[0].at.size() == 20);
    CHECK(book.vehicleNumber("demo-02") == number);

    book.bringBackVehicle(number, {"M.", ""});
    CHECK(book.vehicleByLabel("DEMO-02").plate == "INVENTED 2");
    CHECK(book.withdrawnVehicles().empty());
    book.withdrawVehicle(number, {"", "and again"});
    CHECK(book.vehicles().size() == 1);
    CHECK(book.withdrawnVehicles().at(0).reason.why == "and again");
}

TEST_CASE("a vehicle stays as long as a visit counts, and its visits come back after it") {
    ThreeVisits three;
    CHECK_THROWS_WITH(three.book.withdrawVehicle(three.vehicle, {"", "added twice"}),
                      Contains("1, 2, 3") && Contains("visit correct 1 --vehicle LABEL") &&
                          Contains("visit withdraw 1 --why"));
    CHECK(three.book.vehicles().size() == 1);
    three.book.withdrawVisit(1, wrongVehicle);
    Visit moved = three.book.visit(2);
    moved.vehicleId = three.book.addVehicle(labelled("DEMO-02")).id;
    three.book.correctVisit(moved);
    CHECK_THROWS_WITH(three.book.withdrawVehicle(three.vehicle, {"", "added twice"}),
                      Contains("visits: 3."));
    three.book.withdrawVisit(3, wrongVehicle);
    three.book.withdrawVehicle(three.vehicle, {"", "added twice"});
    CHECK_THROWS_WITH(three.book.bringBackVisit(3, {}),
                      Contains("is withdrawn") && Contains("vehicle withdraw \"DEMO-01\" --undo"));
    CHECK_THROWS_WITH(three.book.correctVisit([&] {
        Visit back = three.book.visit(2);
        back.vehicleId = three.vehicle;
        return back;
    }()),
                      Contains("was withdrawn"));
    CHECK(three.book.allVisits().size() == 1);
    three.book.bringBackVehicle(three.vehicle, {});
    three.book.bringBackVisit(3, {});
    CHECK(three.visits() == std::vector<std::int64_t>{3});
}

TEST_CASE("the label of a withdrawn vehicle is not given again, and the book says how to have it") {
    Book book = Book::inMemory();
    const std::int64_t number = book.addVehicle(labelled("DEMO-01")).id;
    Vehicle other = book.addVehicle(labelled("DEMO-02"));
    book.withdrawVehicle(number, {"M.", "added twice"});
    const auto isRefused = [](const std::function<void()>& asked) {
        CHECK_THROWS_WITH(asked(), Contains("already has that label") &&
                                       Contains("by M.: added twice") &&
                                       Contains("vehicle withdraw \"DEMO-01\" --undo") &&
                                       Contains("vehicle correct \"DEMO-01\""));
    };
    isRefused([&] { book.addVehicle(labelled("demo-01")); });
    other.label = "DEMO-01";
    isRefused([&] { book.correctVehicle(other, {}); });
    CHECK(book.vehicles().size() == 1);
    Vehicle renamed = book.withdrawnVehicles().at(0).vehicle;
    renamed.unit = "Demo 6"; // as when the unit's chart is renamed
    book.correctVehicle(renamed, {});
    CHECK(book.withdrawnVehicles().at(0).vehicle.unit == "Demo 6");
}

TEST_CASE("withdrawing a vehicle or a reading needs a reason and an entry that is valid") {
    Book book = Book::inMemory();
    const std::int64_t vehicle = book.addVehicle(labelled("DEMO-01")).id;
    const std::int64_t reading = book.addCheck(checkOf(1, 2.008, "")).id;
    CHECK_THROWS_WITH(book.withdrawVehicle(vehicle, {"M.", " "}), Contains("Say why the vehicle"));
    CHECK_THROWS_WITH(book.withdrawVehicle(9, {"", "x"}), Contains("no vehicle 9"));
    CHECK_THROWS_WITH(book.bringBackVehicle(vehicle, {}), Contains("is not withdrawn"));
    CHECK_THROWS_AS(book.withdrawVehicle(vehicle, {std::string(101, 'x'), "x"}), UsageError);
    CHECK_THROWS_AS(book.withdrawVehicle(vehicle, {"", std::string(4001, 'x')}), UsageError);
    CHECK_THROWS_WITH(book.withdrawCheck(reading, {}), Contains("Say why the reading"));
    CHECK_THROWS_WITH(book.withdrawCheck(9, {"", "x"}),
                      Contains("no reading 9") && Contains("check --list"));
    CHECK_THROWS_WITH(book.bringBackCheck(reading, {}), Contains("is not withdrawn"));
    book.withdrawVehicle(vehicle, {"", "x"});
    book.withdrawCheck(reading, {"", "x"});
    CHECK_THROWS_WITH(book.withdrawVehicle(vehicle, {"", "x"}), Contains("withdrawn already"));
    CHECK_THROWS_WITH(book.withdrawCheck(reading, {"", "x"}),
                      Contains("withdrawn already") && Contains("check --withdraw 1 --undo"));
}

TEST_CASE("who asks for something withdrawn reads when, by whom, why, and what brings it back") {
    CHECK(withdrawalSentence("visit", "3", {"R. Demo", "typed twice"}, "2025-03-14T08:00:00Z") ==
          "Visit 3 was withdrawn on 2025-03-14 by R. Demo: typed twice. swarfbook visit withdraw 3 "
          "--undo brings it back.");
    CHECK(withdrawalSentence("vehicle", "DEMO-01", {"", "x"}, "2025-03-14T08:00:00Z") ==
          "Vehicle DEMO-01 was withdrawn on 2025-03-14: x. swarfbook vehicle withdraw \"DEMO-01\" "
          "--undo brings it back.");
}

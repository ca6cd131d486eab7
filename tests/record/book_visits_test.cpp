// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/calendar.h"
#include "record/trial_book.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <cmath>
#include <limits>
#include <thread>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;

namespace {

struct OneVehicle {
    Book book = Book::inMemory();
    std::int64_t id = book.addVehicle(labelled("DEMO-01")).id;

    Visit add(const std::string& date, std::optional<double> km, bool earlier = false) {
        return book.addVisit(visitOn(id, date, km), earlier);
    }
};

} // namespace

TEST_CASE("a visit comes back as it was entered") {
    OneVehicle one;
    Visit visit = visitOn(one.id, "2025-03-14", 120000.5);
    visit.complaint = "slips in 3,\nwarm only";
    visit.lookedBy = "M.";
    visit.sinceCleanKm = 30000.0;
    visit.lastClean = "2023-01-02";
    visit.odometerReplaced = true;
    const Visit found = one.book.visit(one.book.addVisit(visit).id);
    CHECK(found.vehicleId == one.id);
    CHECK(found.date == "2025-03-14");
    CHECK(found.odometerKm == 120000.5);
    CHECK(found.complaint == visit.complaint);
    CHECK(found.lookedBy == "M.");
    CHECK(found.sinceCleanKm == 30000.0);
    CHECK(found.lastClean == "2023-01-02");
    CHECK(found.odometerReplaced);
    const Visit unknown = one.book.visit(one.add("today", std::nullopt).id);
    CHECK(unknown.date == todayHere());
    CHECK_FALSE(unknown.odometerKm.has_value());
    CHECK_FALSE(unknown.sinceCleanKm.has_value());
}

TEST_CASE("impossible distances are refused") {
    OneVehicle one;
    for (const double km : {-1.0, -0.001, std::nan(""), std::numeric_limits<double>::infinity()})
        CHECK_THROWS_WITH(one.add("2025-03-14", km), Contains("cannot be"));
    CHECK_THROWS_WITH(one.add("2025-03-14", 12e6), Contains("Check the digits"));
    Visit visit = visitOn(one.id, "2025-03-14", 1000.0);
    visit.sinceCleanKm = 2000.0;
    CHECK_THROWS_WITH(one.book.addVisit(visit), Contains("more than"));
    CHECK(one.book.visits(one.id).empty());
    CHECK_NOTHROW(one.add("2025-03-14", 0.0));
}

TEST_CASE("an odometer that went back is refused unless it was replaced") {
    OneVehicle one;
    one.add("2024-01-10", 100000.0);
    one.add("2024-06-10", std::nullopt);
    CHECK_THROWS_WITH(one.add("2025-01-10", 99999.0),
                      Contains("100000") && Contains("--odometer-replaced"));
    CHECK_NOTHROW(one.add("2025-01-10", 100000.0));
    Visit replaced = visitOn(one.id, "2025-02-10", 12.0);
    replaced.odometerReplaced = true;
    CHECK_NOTHROW(one.book.addVisit(replaced));
    CHECK_THROWS_AS(one.add("2025-03-10", 11.0), UsageError);
    CHECK_NOTHROW(one.add("2025-03-10", 3000.0));
}

TEST_CASE("a visit before the last one is entered only on request") {
    OneVehicle one;
    one.add("2025-03-14", 120000.0);
    CHECK_THROWS_WITH(one.add("2025-03-13", 110000.0),
                      Contains("2025-03-14") && Contains("--earlier"));
    CHECK_THROWS_WITH(one.add("2025-03-13", 120001.0, true), Contains("later visit"));
    one.add("2024-03-13", 110000.0, true);
    CHECK_NOTHROW(one.add("2025-03-14", 120000.0)); // two on one day
    const auto visits = one.book.visits(one.id);
    REQUIRE(visits.size() == 3);
    CHECK(visits[0].date == "2024-03-13");
    Visit replaced = visitOn(one.id, "2025-06-01", 5.0);
    replaced.odometerReplaced = true;
    one.book.addVisit(replaced);
    CHECK_NOTHROW(one.add("2025-05-01", 130000.0, true)); // the old odometer ran to there
}

TEST_CASE("impossible days are refused") {
    OneVehicle one;
    CHECK_THROWS_WITH(one.add("2025-02-30", 1.0), Contains("no day"));
    CHECK_THROWS_WITH(one.add("2999-01-01", 1.0), Contains("future"));
    Visit visit = visitOn(one.id, "2025-03-14", 1000.0);
    visit.lastClean = "2025-03-15";
    CHECK_THROWS_WITH(one.book.addVisit(visit), Contains("cannot be after"));
    CHECK(one.book.visits(one.id).empty());
}

TEST_CASE("a visit needs a vehicle, and an unknown number is reported") {
    Book book = Book::inMemory();
    CHECK_THROWS_AS(book.addVisit(visitOn(1, "2025-03-14")), UsageError);
    CHECK_THROWS_WITH(book.visit(3), Contains("no visit 3"));
}

TEST_CASE("the distance since a clean that was a visit is worked out from the odometers") {
    OneVehicle one;
    one.add("2024-01-10", 100000.0);
    Visit next = visitOn(one.id, "2025-01-10", 118000.0);
    next.lastClean = "2024-01-10";
    CHECK(one.book.addVisit(next).sinceCleanKm == 18000.0);
    next.date = "2025-02-10";
    next.sinceCleanKm = 19000.0;
    CHECK(one.book.addVisit(next).sinceCleanKm == 19000.0); // the typed value counts
    next.sinceCleanKm.reset();
    next.lastClean = "2024-01-11"; // no visit of ours
    CHECK_FALSE(one.book.addVisit(next).sinceCleanKm.has_value());
    next.odometerReplaced = true;
    next.lastClean = "2024-01-10";
    next.odometerKm = 10.0;
    CHECK_FALSE(one.book.addVisit(next).sinceCleanKm.has_value());
    next.odometerReplaced = false;
    next.odometerKm = 500.0;
    CHECK_FALSE(one.book.addVisit(next).sinceCleanKm.has_value());
}

TEST_CASE("a visit is corrected, and its earlier content is kept") {
    OneVehicle one;
    one.add("2024-01-10", 100000.0);
    Visit visit = one.add("2024-07-10", 11000.0 + 100000.0);
    one.add("2025-01-10", 120000.0);
    visit.odometerKm = 110000.0;
    visit.complaint = "shudders";
    one.book.correctVisit(visit);
    CHECK(one.book.visit(visit.id).odometerKm == 110000.0);
    CHECK(one.book.visit(visit.id).complaint == "shudders");
    const auto corrections = one.book.correctionsOfVisit(visit.id);
    REQUIRE(corrections.size() == 1);
    CHECK_THAT(corrections[0].before, Contains(R"("odometer_km":111000.0)"));
    CHECK(corrections[0].correctedAt.size() == 20);
    visit.odometerKm = 130000.0;
    CHECK_THROWS_WITH(one.book.correctVisit(visit), Contains("later visit"));
    visit.odometerKm = 110000.0;
    visit.date = "2024-08-10";
    CHECK_THROWS_WITH(one.book.correctVisit(visit), Contains("--earlier"));
    CHECK_NOTHROW(one.book.correctVisit(visit, true));
    visit.id = 99;
    CHECK_THROWS_AS(one.book.correctVisit(visit), UsageError);
    CHECK(one.book.visits(one.id).size() == 3);
}

TEST_CASE("a visit typed in at the wrong vehicle moves to the right one with all that it holds") {
    OneVehicle one;
    one.add("2024-01-10", 100000.0);
    Visit visit = one.add("2024-07-10", 110000.0);
    one.book.addObservation({0, visit.id, "level", R"({"level":"right"})", ""});
    const std::int64_t other = one.book.addVehicle({0, "DEMO-2", "", "", "", ""}).id;
    visit.vehicleId = other;
    one.book.correctVisit(visit);
    CHECK(one.book.visits(one.id).size() == 1);
    REQUIRE(one.book.visits(other).size() == 1);
    CHECK(one.book.observations(visit.id).size() == 1);
    CHECK_THAT(one.book.correctionsOfVisit(visit.id).at(0).before, Contains(R"("vehicle":"DEMO)"));
    visit.vehicleId = 99;
    CHECK_THROWS_AS(one.book.correctVisit(visit), UsageError);
    Visit late = one.book.visit(1);
    late.vehicleId = other;
    CHECK_THROWS_WITH(one.book.correctVisit(late), Contains("--earlier"));
    late.odometerKm = 120000.0; // more than at the later visit of that vehicle
    CHECK_THROWS_WITH(one.book.correctVisit(late, true), Contains("cannot be right"));
    CHECK(one.book.visits(one.id).size() == 1); // refused: it stays where it was
}

TEST_CASE("of two visits on one day each can be corrected, and their order stays") {
    OneVehicle one;
    Visit first = one.add("2025-03-14", 100.0);
    Visit second = one.add("2025-03-14", 120.0);
    first.complaint = "slips in third";
    first.odometerKm = 110.0;
    CHECK(one.book.correctVisit(first).odometerKm == 110.0);
    second.odometerKm = 130.0;
    CHECK(one.book.correctVisit(second).odometerKm == 130.0);
    second.odometerKm = 105.0; // less than the visit before it on that day
    CHECK_THROWS_WITH(one.book.correctVisit(second), Contains("cannot be right"));
    first.odometerKm = 131.0; // more than the visit after it on that day
    CHECK_THROWS_WITH(one.book.correctVisit(first), Contains("cannot be right"));
    CHECK_THROWS_AS(one.add("2025-03-14", 90.0), UsageError); // a new one comes last
    CHECK(one.book.visits(one.id).front().complaint == "slips in third");
}

TEST_CASE("observations come back as they were entered, in order") {
    OneVehicle one;
    const std::int64_t visit = one.add("2025-03-14", 1.0).id;
    one.book.addObservation({0, visit, "fluid", R"({"colour":"brown"})", ""});
    one.book.addObservation({0, visit, "code", R"({"code":"P0700"})", ""});
    const auto all = one.book.observations(visit);
    REQUIRE(all.size() == 2);
    CHECK(all[0].kind == "fluid");
    CHECK(all[0].json == R"({"colour":"brown"})");
    CHECK(all[1].kind == "code");
    CHECK(all[1].recordedAt.size() == 20);
    CHECK_THROWS_AS(one.book.addObservation({0, 99, "fluid", "{}", ""}), UsageError);
    CHECK_THROWS_AS(one.book.addObservation({0, visit, "fluid", "{", ""}), std::logic_error);
    CHECK(one.book.observations(visit).size() == 2);
}

TEST_CASE("one transaction over several entries keeps all or none") {
    OneVehicle one;
    {
        const BookTransaction transaction = one.book.begin();
        one.book.addVehicle(labelled("DEMO-02"));
        one.add("2025-03-14", 1.0);
    }
    CHECK(one.book.vehicles().size() == 1);
    CHECK(one.book.visits(one.id).empty());
    BookTransaction transaction = one.book.begin();
    one.book.addVehicle(labelled("DEMO-02"));
    CHECK_THROWS_AS(one.add("2999-03-14", 1.0), UsageError);
    one.add("2025-03-14", 1.0);
    transaction.commit();
    CHECK(one.book.vehicles().size() == 2);
    CHECK(one.book.visits(one.id).size() == 1);
}

TEST_CASE("the vehicle last used is the one of the newest visit, observation or photo") {
    OneVehicle one;
    CHECK_FALSE(one.book.vehicleLastUsed().has_value());
    const std::int64_t visit = one.add("2025-03-14", std::nullopt).id;
    CHECK(one.book.vehicleLastUsed() == one.id);
    const std::int64_t other = one.book.addVehicle(labelled("DEMO-02")).id;
    CHECK(one.book.vehicleLastUsed() == one.id); // without a visit it was not used yet
    one.book.addVisit(visitOn(other, "2025-03-15", std::nullopt));
    CHECK(one.book.vehicleLastUsed() == other);
    std::this_thread::sleep_for(std::chrono::milliseconds(1100)); // moments are whole seconds
    one.book.addObservation({0, visit, "fluid", R"({"colour":"brown"})", ""});
    CHECK(one.book.vehicleLastUsed() == one.id);
}

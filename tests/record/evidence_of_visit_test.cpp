// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "judgement/visit_samples.h"
#include "record/evidence_of_visit.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

namespace {

Visit addVisit(Book& book, std::int64_t vehicle, const std::string& date, double km) {
    Visit visit;
    visit.vehicleId = vehicle;
    visit.date = date;
    visit.odometerKm = km;
    return book.addVisit(visit);
}

void observe(Book& book, const Visit& visit, const Observation& observation) {
    StoredObservation stored;
    stored.visitId = visit.id;
    stored.kind = observationKind(observation);
    stored.json = toJson(observation).dump();
    book.addObservation(stored);
}

} // namespace

TEST_CASE("the evidence of a visit holds its observations in order and the earlier visits") {
    Book book = Book::inMemory();
    Vehicle vehicle;
    vehicle.label = "DEMO-03";
    vehicle = book.addVehicle(vehicle);
    const Visit first = addVisit(book, vehicle.id, "2023-01-10", 60000);
    const Visit second = addVisit(book, vehicle.id, "2024-01-10", 80000);
    const Visit third = addVisit(book, vehicle.id, "2025-01-10", 100000);
    observe(book, second, FingerTest{Feel::smears});
    observe(book, second, FingerTest{Feel::felt});
    const Evidence evidence = evidenceOfVisit(book, second.id);
    CHECK(evidence.now.visitId == second.id);
    CHECK(evidence.now.odometer->value() == 80000);
    REQUIRE(evidence.now.observations.size() == 2);
    CHECK(latest<FingerTest>(evidence.now)->feel == Feel::felt);
    REQUIRE(evidence.earlier.size() == 1);
    CHECK(evidence.earlier.front().visitId == first.id);
    CHECK(evidenceOfVisit(book, third.id).earlier.size() == 2);
}

TEST_CASE("a correction counts as made at the time of the entry that it corrects") {
    StoredObservation slip{1, 1, "complaint", "{}", ""}, outcome{2, 1, "outcome", "{}", ""};
    StoredObservation flare{3, 1, "complaint", "{}", ""}, late{4, 1, "complaint", "{}", ""};
    flare.corrects = 1;
    late.corrects = 3;
    const auto stand = standing({slip, outcome, flare, late});
    REQUIRE(stand.size() == 2);
    CHECK(stand[0].id == 4);
    CHECK(stand[1].id == 2);
}

TEST_CASE("the distance entered with the visit counts until an observation says otherwise") {
    Book book = Book::inMemory();
    Vehicle vehicle;
    vehicle.label = "DEMO-03";
    vehicle = book.addVehicle(vehicle);
    Visit visit;
    visit.vehicleId = vehicle.id;
    visit.date = "2024-01-10";
    visit.odometerKm = 80000;
    visit.sinceCleanKm = 20000;
    visit = book.addVisit(visit);
    CHECK(sinceClean(evidenceOfVisit(book, visit.id).now)->value() == 20000);
    observe(book, visit, SinceClean{});
    CHECK_FALSE(sinceClean(evidenceOfVisit(book, visit.id).now));
}

TEST_CASE("an observation of a kind that this program does not know is named") {
    Book book = Book::inMemory();
    Vehicle vehicle;
    vehicle.label = "DEMO-03";
    vehicle = book.addVehicle(vehicle);
    const Visit visit = addVisit(book, vehicle.id, "2024-01-10", 80000);
    StoredObservation stored;
    stored.visitId = visit.id;
    stored.kind = "weather";
    stored.json = "{}";
    book.addObservation(stored);
    CHECK_THROWS_WITH(evidenceOfVisit(book, visit.id), Catch::Contains("weather"));
    CHECK_THROWS_AS(evidenceOfVisit(book, 99), UsageError);
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "cli/run_program.h"
#include "record/trial_book.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;

TEST_CASE("a list of vehicles says how many visits each has and when the last was") {
    Book book = Book::inMemory();
    const std::int64_t a = book.addVehicle(labelled("b")).id;
    book.addVehicle(labelled("A"));
    book.addVisit(visitOn(a, "2025-03-14"));
    book.addVisit(visitOn(a, "2025-05-01"));
    const auto all = book.vehiclesInShort();
    REQUIRE(all.size() == 2);
    CHECK(all[0].vehicle.label == "A");
    CHECK(all[0].visits == 0);
    CHECK(all[0].lastVisit.empty());
    CHECK(all[1].visits == 2);
    CHECK(all[1].lastVisit == "2025-05-01");
}

TEST_CASE("a vehicle comes back as it was entered, after the book was closed") {
    const TemporaryFolder folder;
    {
        Book book = Book::open(folder.path());
        const Vehicle added =
            book.addVehicle({0, " DEMO-03 ", "TEST 1", "VIN0", "towed in\nonce", "Demo 5"});
        CHECK(added.id == 1);
    }
    const Vehicle found = Book::open(folder.path(), IfNoBook::refuse).vehicleByLabel("demo-03");
    CHECK(found.label == "DEMO-03");
    CHECK(found.plate == "TEST 1");
    CHECK(found.vin == "VIN0");
    CHECK(found.note == "towed in\nonce");
    CHECK(found.unit == "Demo 5");
}

TEST_CASE("vehicles are listed by label") {
    Book book = Book::inMemory();
    for (const std::string label : {"van", "DEMO-02", "demo-01"})
        book.addVehicle(labelled(label));
    std::vector<std::string> labels;
    for (const Vehicle& vehicle : book.vehicles())
        labels.push_back(vehicle.label);
    CHECK(labels == std::vector<std::string>{"demo-01", "DEMO-02", "van"});
}

TEST_CASE("labels that are empty, taken or unreadable are refused and leave nothing") {
    Book book = Book::inMemory();
    book.addVehicle(labelled("DEMO-01"));
    CHECK_THROWS_WITH(book.addVehicle(labelled("demo-01")), Contains("already has a vehicle"));
    CHECK_THROWS_WITH(book.addVehicle(labelled("  ")), Contains("needs a label"));
    CHECK_THROWS_AS(book.addVehicle(labelled("a\tb")), UsageError);
    CHECK_THROWS_AS(book.addVehicle(labelled(std::string(61, 'x'))), UsageError);
    CHECK(book.vehicles().size() == 1);
}

TEST_CASE("a missing vehicle is named, with similar labels") {
    Book book = Book::inMemory();
    CHECK_THROWS_WITH(book.vehicleByLabel("DEMO-1"), Contains("vehicle list"));
    book.addVehicle(labelled("DEMO-01"));
    CHECK_THROWS_WITH(book.vehicleByLabel("DEMO-1"), Contains("Did you mean DEMO-01?"));
    CHECK_THROWS_AS(book.vehicleByLabel("DEMO-1"), UsageError);
    CHECK_THROWS_AS(book.vehicle(17), UsageError);
}

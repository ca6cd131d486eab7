// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/book_output.h"
#include "entry/finding_words.h"
#include "record/trial_book.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::cli;
using namespace swarfbook::test;
using Catch::Matchers::Contains;

namespace {

Book trialBook() {
    Book book = Book::inMemory();
    const Vehicle vehicle = book.addVehicle({0, "DEMO-01", "", "", "", "Demo 5"});
    Visit visit = visitOn(vehicle.id, "2025-03-14", 120000.0);
    visit.sinceCleanKm = 30000.0;
    visit.complaint = "slips\nin 3";
    visit = book.addVisit(visit);
    book.addPhoto(newPhoto(visit.id), photoBytes(1), findingOf(photoBytes(1)));
    Measurement refused;
    refused.photo.sha256 = sha256Hex(photoBytes(2));
    refused.refusal = Refusal{RefusalReason::tooDark, "It is dark.", "Switch the lamp on."};
    book.addPhoto(newPhoto(visit.id), photoBytes(2), refused);
    book.addObservation({0, visit.id, "fluid", R"({"colour":"brown"})", ""});
    return book;
}

} // namespace

TEST_CASE("a finding in short gives the count with its size limit, or why there is no count",
          "[program]") {
    Measurement finding = findingOf(photoBytes(1));
    CHECK(findingInShort(finding) == "2 pieces of 0.21 mm and larger");
    finding.debris->particles.pop_back();
    finding.debris->detectionLimit = Millimetres(0.2201);
    CHECK(findingInShort(finding) == "1 piece of 0.22 mm and larger");
    finding.debris->particles.clear();
    CHECK(findingInShort(finding) == "0 pieces of 0.22 mm and larger");
    finding.magnet = MagnetFinding{};
    finding.magnet->coveredShare = {Share(0.62), Share(0.04)};
    // 95 % of the time within 1.96 standard uncertainties (JCGM 100:2008, 6.3, from memory)
    CHECK_THAT(findingInShort(finding), Contains("fuzz on 62 ± 8 % of the magnet's face"));
    Measurement refused;
    refused.refusal = Refusal{RefusalReason::tooDark, "It is dark.", "Switch the lamp on."};
    CHECK(findingInShort(refused) == "not measured: the photo is too dark");
    CHECK(findingInFull(refused) == "not measured. It is dark. Switch the lamp on.");
}

TEST_CASE("a vehicle's page shows its visits, a visit's page its photos and observations",
          "[program]") {
    const Book book = trialBook();
    CHECK_THAT(vehicleListText(book), Contains("DEMO-01  Demo 5       1  2025-03-14"));
    const std::string vehicle = vehicleText(book, book.vehicleByLabel("DEMO-01"));
    CHECK_THAT(vehicle, Contains("unit     Demo 5") && Contains("120,000 km") &&
                            Contains("pan 2") && Contains("slips in 3"));
    const std::string visit = visitText(book, book.visit(1));
    CHECK_THAT(visit, Contains("30,000 km") && Contains("not measured: the photo is too dark") &&
                          Contains("floor wiped") && Contains("fluid: brown"));
    CHECK_THAT(vehicleListText(Book::inMemory()), Contains("swarfbook vehicle add"));
}

// Source: the project's own written formats; fields may join, none may go or change its meaning.
TEST_CASE("the JSON of vehicles and visits has its format's name and fields", "[program]") {
    const Book book = trialBook();
    const Vehicle vehicle = book.vehicleByLabel("DEMO-01");
    const auto list = vehicleListJson(book);
    CHECK(list["format"] == "swarfbook vehicle list 1");
    CHECK(list["vehicles"][0]["label"] == "DEMO-01");
    CHECK(list["vehicles"][0]["plate"].is_null());
    CHECK(list["vehicles"][0]["visits"] == 1);
    CHECK(list["vehicles"][0]["last_visit"] == "2025-03-14");
    CHECK(vehicleJson(book, vehicle)["format"] == "swarfbook vehicle 1");
    CHECK(vehicleJson(book, vehicle)["visits"][0]["photos"] == 2);
    CHECK(visitListJson(book, vehicle)["format"] == "swarfbook visit list 1");
    const auto visit = visitJson(book, book.visit(1));
    CHECK(visit["format"] == "swarfbook visit 1");
    CHECK(visit["vehicle"]["unit"] == "Demo 5");
    CHECK(visit["visit"]["number"] == 1);
    CHECK(visit["visit"]["odometer_km"] == 120000.0);
    CHECK(visit["visit"]["since_clean_km"] == 30000.0);
    CHECK(visit["visit"]["last_clean"].is_null());
    CHECK(visit["photos"][0]["place"] == "pan");
    CHECK(visit["photos"][0]["measurement"]["particles"].size() == 2);
    CHECK(visit["photos"][1]["measurement"]["refusal"]["reason"] == "too_dark");
    CHECK(visit["observations"][0]["content"]["colour"] == "brown");
}

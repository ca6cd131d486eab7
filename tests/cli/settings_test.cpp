// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/shop.h"

#include <catch2/catch.hpp>

using namespace swarfbook::test;
using Catch::Matchers::Contains;

TEST_CASE("the workshop's settings are on every report, and a command's options come before them") {
    const Shop shop;
    for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
             {"settings", "--workshop", "Kestrel Lane Transmissions", "--address",
              "1 Kestrel Lane"},
             {"settings", "--telephone", "000 1234"},
             {"vehicle", "add", "DEMO-03"},
             {"visit", "add", "DEMO-03", "--date", "2025-01-10"},
             {"observe", "--visit", "1", "codes", "none"}})
        REQUIRE(shop.run(words).exit == 0);
    CHECK_THAT(shop.run({"settings"}).out,
               Contains("Kestrel Lane Transmissions") && Contains("000 1234") && Contains("a4"));
    const ProgramResult report = shop.run({"report", "--visit", "1", "--text"});
    CHECK_THAT(report.out,
               Contains("Kestrel Lane Transmissions, 1 Kestrel Lane, telephone 000 1234\n"));
    CHECK_THAT(shop.run({"report", "--visit", "1", "--text", "--workshop", "Other Lane"}).out,
               Contains("Other Lane") && !Contains("Kestrel Lane Transmissions"));
    CHECK(shop.run({"settings", "--paper", "a5"}).exit == 2);
}

TEST_CASE("units and the order of dates are set once and shown everywhere; JSON stays metric") {
    const Shop shop;
    for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
             {"settings", "--distance", "mi", "--temperature", "F", "--volume", "qt", "--dates",
              "month-first"},
             {"vehicle", "add", "DEMO-03"},
             {"visit", "add", "DEMO-03", "--date", "2025-01-10", "--odometer", "160934 km",
              "--since-clean", "10000mi"},
             {"observe", "--visit", "1", "codes", "none"},
             {"observe", "--visit", "1", "refill", "4.5l"},
             {"observe", "--visit", "1", "level-check", "right", "--at", "40C"}})
        REQUIRE(shop.run(words).exit == 0);
    CHECK_THAT(shop.run({"settings"}).out, Contains("distance     mi"));
    const std::string text = shop.run({"report", "--visit", "1", "--text"}).out;
    CHECK_THAT(text, Contains("Jan 10, 2025") && Contains("100,000 mi") && !Contains("2025-01-10"));
    CHECK_THAT(text, Contains("4.5l (4.76 qt)") && Contains("40C (104 F)"));
    CHECK_THAT(shop.run({"visit", "show", "1"}).out,
               Contains("100,000 mi") && Contains("10,000 mi") && Contains("Jan 10, 2025"));
    CHECK_THAT(shop.run({"visit", "list", "DEMO-03"}).out, Contains("Jan 10, 2025"));
    CHECK_THAT(shop.run({"report", "--work-sheet", "--visit", "1", "--text"}).out,
               Contains("\u00b0F") && Contains("qt") && Contains("Jan 10, 2025"));
    CHECK_THAT(shop.run({"report", "--visit", "1", "--json"}).out,
               Contains("\"odometer_km\": 160934.0") && Contains("\"date\": \"2025-01-10\""));
    for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
             {"settings", "--distance", "furlongs"}, {"settings", "--dates", "any"}})
        CHECK(shop.run(words).exit == 2);
}

// The findings are those of typed/131-felt-in-the-filter.txt; 50 / 1.609344 and 150 / 1.609344.
TEST_CASE("a distance in a sentence of the suggestion is shown in the unit of the settings") {
    const Shop shop;
    for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
             {"vehicle", "add", "DEMO-03"},
             {"visit", "add", "DEMO-03", "--date", "2025-01-10", "--odometer", "160934 km"},
             {"observe", "--visit", "1", "codes", "none", "and", "level", "right", "and",
              "complaint", "good", "and", "noise", "none"},
             {"observe", "--visit", "1", "debris", "pan", "bright-metal", "--size", "S1",
              "--amount", "plenty", "--magnetic", "yes"},
             {"observe", "--visit", "1", "debris", "filter", "bright-metal", "--size", "S2",
              "--amount", "few"},
             {"observe", "--visit", "1", "finger", "felt", "--place", "filter"}})
        REQUIRE(shop.run(words).exit == 0);
    CHECK_THAT(shop.run({"suggest", "--visit", "1"}).out, Contains("drive it 50 to 150 km"));
    REQUIRE(shop.run({"settings", "--distance", "mi"}).exit == 0);
    const std::string miles = shop.run({"suggest", "--visit", "1"}).out;
    CHECK_THAT(miles, Contains("drive it 31 to 93 mi") && !Contains(" km"));
}

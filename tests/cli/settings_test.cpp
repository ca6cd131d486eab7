// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/shop.h"

#include <catch2/catch.hpp>

using namespace swarfbook::test;
using Catch::Matchers::Contains;

TEST_CASE("what the workshop sets once is on every report, and what a command says outranks it") {
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
    const Outcome report = shop.run({"report", "--visit", "1", "--text"});
    CHECK_THAT(report.out,
               Contains("Kestrel Lane Transmissions, 1 Kestrel Lane, telephone 000 1234\n"));
    CHECK_THAT(shop.run({"report", "--visit", "1", "--text", "--workshop", "Other Lane"}).out,
               Contains("Other Lane") && !Contains("Kestrel Lane Transmissions"));
    CHECK(shop.run({"settings", "--paper", "a5"}).exit == 2);
}

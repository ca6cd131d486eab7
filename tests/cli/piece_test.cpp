// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/shop.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace swarfbook::test;
using Catch::Matchers::Contains;

TEST_CASE("pieces are listed, corrected by hand, shown so in the report, and put back") {
    const Shop shop;
    for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
             {"vehicle", "add", "DEMO-03"},
             {"visit", "add", "DEMO-03", "--date", "2025-01-10", "--odometer", "50000"},
             {"add", "--visit", "1", demoPhoto(), "--place", "pad", "--measured-bar", "80.0"}}) {
        const Outcome ran = shop.run(words);
        INFO(ran.err);
        REQUIRE(ran.exit == 0);
    }
    const auto piecesNow = [&] {
        const auto report =
            nlohmann::json::parse(shop.run({"report", "--visit", "1", "--json"}).out);
        return report.at("samples").at(0).at("pieces").get<int>();
    };
    const int before = piecesNow();
    CHECK_THAT(shop.run({"piece", "--photo", "1"}).out, Contains("longest side"));
    REQUIRE(
        shop.run({"piece", "--photo", "1", "1", "2", "--is", "not-debris", "--by", "M."}).exit ==
        0);
    CHECK(piecesNow() == before - 2);
    REQUIRE(shop.run({"piece", "--photo", "1", "3", "--is", "lining"}).exit == 0);
    CHECK(piecesNow() == before - 2);
    CHECK_THAT(shop.run({"report", "--visit", "1", "--text", "--full"}).out,
               Contains("Corrected by hand: Piece 1, measured as") &&
                   Contains("is not debris and is not counted (by M.)") && Contains("is lining."));
    CHECK_THAT(shop.run({"piece", "--photo", "1"}).out, Contains("corrected by hand"));
    REQUIRE(shop.run({"piece", "--photo", "1", "1", "2", "3", "--undo"}).exit == 0);
    CHECK(piecesNow() == before);

    for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
             {"piece"},
             {"piece", "--photo", "one"},
             {"piece", "--photo", "1", "--is", "lining"},
             {"piece", "--photo", "1", "1"},
             {"piece", "--photo", "1", "1", "--is", "gold"},
             {"piece", "--photo", "1", "1", "--is", "lining", "--undo"},
             {"piece", "--photo", "1", "9999", "--is", "lining"},
             {"piece", "--photo", "1", "--at", "here", "--is", "lining"},
             {"piece", "--photo", "1", "1", "--undo"}})
        CHECK(shop.run(words).exit == 2);
}

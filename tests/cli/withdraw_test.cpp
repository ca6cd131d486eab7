// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/shop.h"

#include <catch2/catch.hpp>

using namespace swarfbook::test;
using Catch::Matchers::Contains;

namespace {

/// A shop with a vehicle and two visits; the second has an observation.
struct TwoVisits : Shop {
    TwoVisits() {
        for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
                 {"vehicle", "add", "DEMO-03", "--plate", "INVENTED 3"},
                 {"visit", "add", "DEMO-03", "--date", "2025-01-10", "--odometer", "50000"},
                 {"visit", "add", "DEMO-03", "--date", "2025-02-10", "--odometer", "51000"},
                 {"observe", "--visit", "2", "codes", "none"}})
            REQUIRE(run(words).exit == 0);
    }
};

} // namespace

TEST_CASE("a visit entered by mistake is withdrawn with who and why, and brought back") {
    const TwoVisits shop;
    const ProgramResult withdrawn =
        shop.run({"visit", "withdraw", "2", "--why", "wrong vehicle", "--by", "M."});
    INFO(withdrawn.err);
    REQUIRE(withdrawn.exit == 0);
    CHECK_THAT(withdrawn.out, Contains("counts nowhere") && Contains("--undo"));
    CHECK_THAT(shop.run({"visit", "list", "DEMO-03"}).out, !Contains("2025-02-10 ") &&
                                                               Contains("Withdrawn: visit 2") &&
                                                               Contains("by M.: wrong vehicle"));
    for (const std::vector<std::string>& words :
         std::vector<std::vector<std::string>>{{"visit", "show", "2"},
                                               {"suggest", "--visit", "2"},
                                               {"report", "--visit", "2", "--text"}}) {
        const ProgramResult refused = shop.run(words);
        CHECK(refused.exit == 2);
        CHECK_THAT(refused.err, Contains("was withdrawn") && Contains("wrong vehicle"));
    }
    CHECK(shop.run({"visit", "withdraw", "2", "--undo"}).exit == 0);
    CHECK_THAT(shop.run({"visit", "show", "2"}).out, Contains("2025-02-10"));
    CHECK(shop.run({"visit", "withdraw", "2", "--undo"}).exit == 2);
    CHECK(shop.run({"visit", "withdraw", "1"}).exit == 2); // no reason
}

TEST_CASE("a vehicle is renamed, and its plate, VIN and unit are corrected") {
    const TwoVisits shop;
    REQUIRE(shop.run({"vehicle", "rename", "DEMO-03", "DEMO-33", "--why", "typing"}).exit == 0);
    CHECK(shop.run({"vehicle", "show", "DEMO-03"}).exit == 2);
    REQUIRE(
        shop.run({"vehicle", "correct", "DEMO-33", "--plate", "INVENTED 33", "--unit", "Demo 5"})
            .exit == 0);
    CHECK_THAT(shop.run({"vehicle", "show", "DEMO-33"}).out,
               Contains("INVENTED 33") && Contains("Demo 5") && Contains("2025-02-10"));
    CHECK(shop.run({"vehicle", "rename", "DEMO-33"}).exit == 2);
    CHECK(shop.run({"vehicle", "correct", "DEMO-99", "--plate", "X"}).exit == 2);
}

TEST_CASE("a photo is withdrawn by the number in visit show, and brought back") {
    const TwoVisits shop;
    const ProgramResult added =
        shop.run({"add", "--visit", "2", demoPhoto(), "--place", "pad", "--measured-bar", "80.0"});
    INFO(added.err);
    REQUIRE(added.exit == 0);
    REQUIRE(shop.run({"photo", "withdraw", "1", "--why", "a thumb on the card"}).exit == 0);
    CHECK_THAT(shop.run({"visit", "show", "2"}).out, Contains("No photo is in this visit") &&
                                                         Contains("Withdrawn: photo 1") &&
                                                         Contains("a thumb on the card"));
    CHECK(shop.run({"photo", "withdraw", "1", "--undo"}).exit == 0);
    CHECK_THAT(shop.run({"visit", "show", "2"}).out, Contains("history-1.jpg"));
    for (const std::vector<std::string>& words :
         std::vector<std::vector<std::string>>{{"photo"},
                                               {"photo", "withdraw"},
                                               {"photo", "withdraw", "one", "--why", "x"},
                                               {"photo", "withdraw", "7", "--why", "x"},
                                               {"photo", "withdraw", "1"}})
        CHECK(shop.run(words).exit == 2);
}

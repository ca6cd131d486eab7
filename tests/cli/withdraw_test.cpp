// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/shop.h"
#include "record/check_of.h"

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

TEST_CASE("a vehicle added by mistake is withdrawn with who and why, and brought back") {
    const TwoVisits shop;
    REQUIRE(shop.run({"vehicle", "add", "DEMO-O3", "--unit", "Demo 5"}).exit == 0);
    const ProgramResult withdrawn = shop.run(
        {"vehicle", "withdraw", "DEMO-O3", "--why", "a slip: it is DEMO-03", "--by", "M."});
    INFO(withdrawn.err);
    REQUIRE(withdrawn.exit == 0);
    CHECK_THAT(withdrawn.out, Contains("counts nowhere") && Contains("\"DEMO-O3\" --undo"));
    const ProgramResult list = shop.run({"vehicle", "list"});
    CHECK_THAT(list.out, !Contains("DEMO-O3  Demo 5") && Contains("Withdrawn: vehicle DEMO-O3 (") &&
                             Contains("by M.: a slip: it is DEMO-03)"));
    CHECK_THAT(shop.run({"vehicle", "list", "--json"}).out, !Contains("DEMO-O3"));
    for (const std::vector<std::string>& words :
         std::vector<std::vector<std::string>>{{"vehicle", "show", "DEMO-O3"},
                                               {"vehicle", "add", "DEMO-O3"},
                                               {"vehicle", "rename", "DEMO-03", "DEMO-O3"},
                                               {"vehicle", "correct", "DEMO-O3", "--plate", "X"},
                                               {"visit", "add", "DEMO-O3", "--date", "2025-03-10"},
                                               {"visit", "correct", "2", "--vehicle", "DEMO-O3"},
                                               {"visit", "list", "DEMO-O3"},
                                               {"list", "--vehicle", "DEMO-O3"},
                                               {"export", "visits", "--vehicle", "DEMO-O3"}}) {
        const ProgramResult refused = shop.run(words);
        CAPTURE(words);
        CHECK(refused.exit == 2);
        CHECK_THAT(refused.err, Contains("was withdrawn") && Contains("a slip") &&
                                    Contains("vehicle withdraw \"DEMO-O3\" --undo"));
    }
    CHECK(shop.run({"vehicle", "withdraw", "demo-o3", "--undo"}).exit == 0);
    CHECK_THAT(shop.run({"vehicle", "show", "DEMO-O3"}).out, Contains("Demo 5"));
    CHECK_THAT(shop.run({"vehicle", "list"}).out, !Contains("Withdrawn"));
    CHECK(shop.run({"vehicle", "withdraw", "DEMO-O3", "--undo"}).exit == 2);
    CHECK(shop.run({"vehicle", "withdraw", "DEMO-O3"}).exit == 2); // no reason
    CHECK(shop.run({"vehicle", "withdraw", "DEMO-99", "--why", "x"}).exit == 2);
    CHECK(shop.run({"vehicle", "withdraw"}).exit == 2);
    CHECK(shop.run({"book", "check"}).exit == 0);
}

TEST_CASE("a vehicle with visits is withdrawn after they were moved or withdrawn") {
    const TwoVisits shop;
    const std::vector<std::string> withdraw{"vehicle", "withdraw", "DEMO-03", "--why", "twice"};
    const ProgramResult refused = shop.run(withdraw);
    CHECK(refused.exit == 2);
    CHECK_THAT(refused.err,
               Contains("visit correct 1 --vehicle") && Contains("visit withdraw 1 --why"));
    REQUIRE(shop.run({"vehicle", "add", "DEMO-04"}).exit == 0);
    REQUIRE(shop.run({"visit", "correct", "1", "--vehicle", "DEMO-04"}).exit == 0);
    CHECK(shop.run(withdraw).exit == 2);
    REQUIRE(shop.run({"visit", "withdraw", "2", "--why", "wrong vehicle"}).exit == 0);
    CHECK(shop.run(withdraw).exit == 0);
    const ProgramResult alone = shop.run({"visit", "withdraw", "2", "--undo"});
    CHECK(alone.exit == 2);
    CHECK_THAT(alone.err, Contains("Bring the vehicle back first"));
    CHECK_THAT(shop.run({"list"}).out, Contains("DEMO-04") && !Contains("DEMO-03"));
    CHECK(shop.run({"vehicle", "withdraw", "DEMO-03", "--undo"}).exit == 0);
    CHECK(shop.run({"visit", "withdraw", "2", "--undo"}).exit == 0);
}

TEST_CASE("a reading of the wrong thing is withdrawn by its number in check --list") {
    const TwoVisits shop;
    {
        auto book = swarfbook::Book::open(shop.folder.path() / "book");
        book.addCheck(checkOf(1, 2.008, "R. Demo"));
        book.addCheck(checkOf(2, 2.712, "R. Demo"));
        book.addCheck(checkOf(2, 2.713, "R. Demo")); // the photo read again
    }
    CHECK_THAT(shop.run({"check", "--list"}).out, Contains("1 of 2 readings agree"));
    const ProgramResult withdrawn =
        shop.run({"check", "--withdraw", "3", "--why", "the wire was read", "--by", "M."});
    INFO(withdrawn.err);
    REQUIRE(withdrawn.exit == 0);
    CHECK_THAT(withdrawn.out, Contains("counts nowhere") && Contains("--withdraw 3 --undo") &&
                                  Contains("Reading 2, an earlier one") &&
                                  Contains("counts again"));
    CHECK_THAT(shop.run({"check", "--withdraw", "2", "--why", "the same"}).out,
               !Contains("counts again"));
    const ProgramResult list = shop.run({"check", "--list"});
    CHECK_THAT(list.out, Contains("The one reading agrees") && !Contains("2.713") &&
                             Contains("Withdrawn: reading 3 (") &&
                             Contains("by M.: the wire was read"));
    const std::string json = shop.run({"check", "--list", "--json"}).out;
    CHECK_THAT(json, Contains("\"number\":1") && !Contains("\"number\":3"));
    CHECK(shop.run({"check", "--withdraw", "1", "--why", "the card was bent"}).exit == 0);
    const ProgramResult none = shop.run({"check", "--list"});
    CHECK(none.exit == 1);
    CHECK_THAT(none.out, Contains("Withdrawn: reading 1 ("));
    CHECK(shop.run({"check", "--withdraw", "3", "--undo"}).exit == 0);
    CHECK_THAT(shop.run({"check", "--list"}).out, Contains("2.713") && !Contains("2.712"));
    for (const std::vector<std::string>& words :
         std::vector<std::vector<std::string>>{{"--withdraw", "3"}, // no reason
                                               {"--withdraw", "9", "--why", "x"},
                                               {"--withdraw", "three", "--why", "x"},
                                               {"--withdraw", "3", "--undo", "--undo"},
                                               {"--undo"},
                                               {"--why", "x"},
                                               {"--withdraw", "3", "--why", "x", "--json"},
                                               {"--withdraw", "3", "--why", "x", "a.jpg"}}) {
        CAPTURE(words);
        CHECK(shop.verb("check", words).exit == 2);
    }
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

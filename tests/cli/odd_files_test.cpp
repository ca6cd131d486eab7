// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/shop.h"

#include <catch2/catch.hpp>

#include <sys/stat.h>

using namespace swarfbook::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// The verb must come to an end within half a minute and name what is wrong.
void refusedSoon(const Shop& shop, int exit, const std::string& sentence,
                 const std::vector<std::string>& words) {
    RunOptions options;
    options.folder = shop.folder.path();
    options.environment["SWARFBOOK_BOOK"] = (shop.folder.path() / "book").string();
    options.secondsAllowed = 30;
    const ProgramResult outcome = runProgram(words, options);
    INFO(words[0] << ": " << outcome.err);
    CHECK(outcome.exit == exit);
    CHECK_THAT(outcome.out + outcome.err, Contains(sentence));
}

} // namespace

TEST_CASE("a pipe, a device or a folder in place of a file is refused without waiting for it") {
    const Shop shop;
    REQUIRE(shop.run({"vehicle", "add", "DEMO-03"}).exit == 0);
    REQUIRE(shop.run({"visit", "add", "DEMO-03", "--date", "2025-03-14"}).exit == 0);
    REQUIRE(mkfifo((shop.folder.path() / "pipe").c_str(), 0600) == 0);
    REQUIRE(mkfifo((shop.folder.path() / "pipe.json").c_str(), 0600) == 0);
    refusedSoon(shop, 2, "a pipe or a device", {"unit", "new", "U", "--from-table", "pipe"});
    refusedSoon(shop, 2, "a pipe or a device", {"unit", "new", "U", "--from-table", "/dev/zero"});
    refusedSoon(shop, 2, "is a folder", {"unit", "new", "U", "--from-table", "."});
    refusedSoon(shop, 2, "There is no file", {"unit", "new", "U", "--from-table", "typo.csv"});
    refusedSoon(shop, 2, "There is no chart", {"unit", "show", "pipe.json"});
    refusedSoon(shop, 1, "not an ordinary file", {"measure", "pipe"});
    refusedSoon(shop, 1, "not an ordinary file", {"add", "--visit", "1", "pipe", "--place", "pad"});
    refusedSoon(shop, 1, "not every photo gave a reading",
                {"check", "--known-size", "3mm", "--no-book", "pipe"});
    refusedSoon(shop, 1, "not an ordinary file", {"measure", demoPhoto(), "--blank", "pipe"});
}

TEST_CASE("a mistyped clean reference, or one that is not a photo, is refused before anything is "
          "measured or kept") {
    const Shop shop;
    REQUIRE(shop.run({"vehicle", "add", "DEMO-03"}).exit == 0);
    REQUIRE(shop.run({"visit", "add", "DEMO-03", "--date", "2025-03-14"}).exit == 0);
    for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
             {"measure", demoPhoto(), "--blank", "typo.jpg"},
             {"add", "--visit", "1", demoPhoto(), "--place", "pan", "--blank", "typo.jpg"}}) {
        const ProgramResult outcome = shop.run(words);
        CHECK(outcome.exit == 1);
        CHECK(outcome.out.empty());
        CHECK_THAT(outcome.err,
                   Contains("There is no file typo.jpg") && Contains("nothing was measured"));
    }
    refusedSoon(shop, 2, "--blank needs the name of a file",
                {"measure", demoPhoto(), "--blank", ""});
    CHECK_THAT(shop.run({"visit", "show", "1"}).out, Contains("No photo"));
}

TEST_CASE("if one of several photos is refused, it is left out and named") {
    const Shop shop;
    REQUIRE(shop.run({"vehicle", "add", "DEMO-03"}).exit == 0);
    REQUIRE(shop.run({"visit", "add", "DEMO-03", "--date", "2025-03-14"}).exit == 0);
    const ProgramResult outcome =
        shop.run({"add", "--visit", "1", demoPhoto(), "typo.jpg", "--place", "pad"});
    CHECK(outcome.exit == 1);
    CHECK_THAT(outcome.out,
               Contains("history-1.jpg: added") && Contains("typo.jpg: refused and not added"));
    CHECK_THAT(shop.run({"visit", "show", "1"}).out, Contains("history-1.jpg"));
    CHECK_THAT(shop.run({"add", "--help"}).out, Contains("a refused one is named and left out"));
}

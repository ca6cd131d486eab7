// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/shop.h"
#include "record/whole_book.h"

#include <catch2/catch.hpp>

using namespace swarfbook::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// A line of shell in a shop that has a vehicle, a visit and a photo, the program being swarfbook.
struct ShellShop {
    Shop shop;

    ShellShop() {
        for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
                 {"vehicle", "add", "DEMO-03", "--unit", "Demo 5"},
                 {"visit", "add", "DEMO-03", "--date", "2025-01-10", "--odometer", "50000"},
                 {"visit", "add", "DEMO-03", "--date", "2025-02-10", "--odometer", "51000"},
                 {"observe", "--visit", "1", "gear", "3", "slip"},
                 {"add", "--visit", "1", demoPhoto(), "--place", "pad"}})
            REQUIRE(shop.run(words).exit == 0);
    }
    [[nodiscard]] ProgramResult line(const std::string& text) const {
        RunOptions shell;
        shell.program = "/bin/sh";
        shell.folder = shop.folder.path();
        shell.environment["SWARFBOOK_BOOK"] = (shop.folder.path() / "book").string();
        shell.environment["PATH"] =
            fs::path(SWARFBOOK_PROGRAM).parent_path().string() + ":/usr/bin:/bin";
        return runProgram({"-c", text}, shell);
    }
    /// Its result cannot be written, which must be reported with exit code 3.
    [[nodiscard]] std::string cannotWrite(const std::string& words) const {
        const ProgramResult outcome = line("swarfbook " + words + " > /dev/full");
        INFO(words << ": " << outcome.err);
        CHECK(outcome.exit == 3);
        CHECK_THAT(outcome.err, Contains("could not be written to the standard output (No space"));
        return outcome.err;
    }
};

} // namespace

TEST_CASE("a result that cannot be written is exit code 3 and a sentence, for every verb",
          "[hostile]") {
    const ShellShop shop;
    for (const std::string words : {"--help",
                                    "--version",
                                    "report --help",
                                    "vehicle list",
                                    "vehicle list --json",
                                    "vehicle show DEMO-03",
                                    "vehicle show DEMO-03 --json",
                                    "visit list DEMO-03",
                                    "visit list DEMO-03 --json",
                                    "visit show 1",
                                    "visit show 1 --json",
                                    "observe --visit 1",
                                    "observe --visit 1 --json",
                                    "suggest --visit 1",
                                    "suggest --visit 1 --why",
                                    "suggest --visit 1 --json",
                                    "eliminate --visit 1",
                                    "eliminate --visit 1 --json",
                                    "report --visit 1 --text",
                                    "report --visit 1 --json",
                                    "report --work-sheet --text",
                                    "track-record",
                                    "track-record --json",
                                    "check --list --json",
                                    "unit show",
                                    "unit show --json",
                                    "unit show \"Demo 5\"",
                                    "unit show \"Demo 5\" --json",
                                    "unit check \"Demo 5\"",
                                    "unit check \"Demo 5\" --json"})
        CHECK_THAT(shop.cannotWrite(words), !Contains("kept"));
}

TEST_CASE("an entry that was kept is reported as kept although its result could not be written",
          "[hostile]") {
    const ShellShop shop;
    const std::string orphan = std::string(64, 'a') + ".jpg";
    writeText(shop.shop.folder.path() / "book/photos/aa" / orphan, "an orphan");
    const std::vector<std::pair<std::string, std::string>> writing{
        {"vehicle add DEMO-04", "Vehicle DEMO-04 is in the book"},
        {"vehicle unit DEMO-04 --unit \"Demo 5\"", "has the unit Demo 5"},
        {"visit add DEMO-03 --date 2025-03-14", "Visit 3 of DEMO-03 is in the book"},
        {"visit add DEMO-03 --date 2025-03-15 --json", "Visit 4 of DEMO-03 is in the book"},
        {"visit correct 3 --by Demo", "correction of visit 3"},
        {"observe --visit 1 finger felt", "The observation is in the book, number 2"},
        {"observe --visit 1 finger felt --json", "The observation is in the book, number 3"},
        {"card --layout close --out card.pdf", "is in the book. It is in card.pdf"},
        {"card --layout close --measured-bar 79.9", "check bar of card "},
        {"add --visit 1 " + demoPhoto() + " --place pad", "added to visit 1 is in the book"},
        {"report --visit 1 --text --out report.pdf", "Saved report.pdf"},
        {"measure " + demoPhoto() + " --annotated a.jpg", "The annotated photo is in a.jpg"},
        {"visit measure 1", "new findings of visit 1"},
        {"backup --out copy", "The backup is in copy"},
        {"restore copy --book again", "The book is in"},
        {"book check --mend", "What --mend has put in order stays in order"}};
    for (const auto& [words, sentence] : writing)
        CHECK_THAT(shop.cannotWrite(words), Contains("kept anyway") && Contains(sentence));
    CHECK_THAT(shop.line("swarfbook vehicle list").out, Contains("DEMO-04"));
    CHECK(shop.shop.has("report.pdf"));
}

TEST_CASE("a reader that closes the pipe is no trouble, unless something was kept", "[hostile]") {
    const ShellShop shop;
    const auto intoClosedPipe = [&](const std::string& words) {
        return shop.line("{ sleep 0.3; swarfbook " + words + "; echo $? > code; } | true");
    };
    CHECK(intoClosedPipe("vehicle list").err.empty());
    CHECK(contentOf(shop.shop.folder.path() / "code") == "3\n");
    CHECK_THAT(intoClosedPipe("vehicle add DEMO-05").err, Contains("kept anyway"));
    CHECK(shop.line("swarfbook vehicle list | head -n 1").err.empty());
}

TEST_CASE("standard streams that are closed harm no book", "[hostile]") {
    const ShellShop shop;
    const ProgramResult added = shop.line("swarfbook vehicle add DEMO-06 >&- <&-");
    CHECK(added.exit == 3);
    CHECK_THAT(added.err, Contains("kept anyway"));
    (void)shop.line("swarfbook vehicle add DEMO-07 >&- 2>&- <&-");
    CHECK_THAT(shop.line("swarfbook vehicle list").out, Contains("DEMO-06") && Contains("DEMO-07"));
}

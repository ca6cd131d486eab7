// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/plain_output.h"
#include "cli/progress.h"
#include "cli/run_in_terminal.h"
#include "cli/shop.h"

#include <catch2/catch.hpp>

#include <regex>
#include <sstream>

using namespace swarfbook;
using namespace swarfbook::cli;
using namespace swarfbook::test;
using Catch::Contains;
namespace fs = std::filesystem;

namespace {

std::string written(const std::string& text, ShownOn where) {
    std::ostringstream out;
    {
        const PlainOutput plain(out, where);
        out << text;
    }
    return out.str();
}

/// Without the colours (ECMA-48, select graphic rendition).
std::string withoutColours(const std::string& text) {
    return std::regex_replace(text, std::regex("\x1b\\[[0-9;]*m"), "");
}

std::size_t longestLine(const std::string& text) {
    std::istringstream lines(text);
    std::size_t longest = 0;
    for (std::string line; std::getline(lines, line);)
        longest = std::max(longest, line.size());
    return longest;
}

/// A shop with a visit whose table is wider than most terminals.
void fill(const Shop& shop) {
    REQUIRE(shop.run({"vehicle", "add", "DEMO-03", "--unit", "a unit with a long invented name"})
                .exit == 0);
    REQUIRE(shop.run({"visit", "add", "DEMO-03", "--date", "2025-03-14", "--odometer", "120500",
                      "--complaint",
                      "third gear slips uphill when it is hot, and the shift from two to three "
                      "flares under load"})
                .exit == 0);
}

RunOptions optionsOf(const Shop& shop) {
    RunOptions options;
    options.folder = shop.folder.path();
    options.environment["SWARFBOOK_BOOK"] = (shop.folder.path() / "book").string();
    return options;
}

} // namespace

TEST_CASE("long lines are broken at blanks; commands and JSON stay whole") {
    const ShownOn narrow{20, false};
    CHECK(written("one two three four five six\n", narrow) == "one two three four\nfive six\n");
    CHECK(written("  one two three four five\n", narrow) == "  one two three four\n    five\n");
    CHECK(written("- one two three four five\n", narrow) == "- one two three four\n  five\n");
    for (const char* whole :
         {"  swarfbook measure photo.jpg --place pan\n", "usage: swarfbook measure PHOTO\n",
          "{\"a\": 1, \"b\": 2, \"c\": 3}\n"})
        CHECK(written(whole, narrow) == whole);
    CHECK(written("swarfbook: this is no photo\n", narrow) == "swarfbook: this is\nno photo\n");
    CHECK(written("gr\xC3\xBCn gr\xC3\xBCn gr\xC3\xBCn gr\xC3\xBCn gr\xC3\xBCn\n", {24, false}) ==
          "gr\xC3\xBCn gr\xC3\xBCn gr\xC3\xBCn gr\xC3\xBCn gr\xC3\xBCn\n");
    CHECK(written("one two three four five six\n", {}) == "one two three four five six\n");
}

TEST_CASE(
    "a line that comes in parts is broken like a whole one, and a question stays in its line") {
    std::ostringstream out;
    {
        const PlainOutput plain(out, {20, false});
        for (const char* part : {"one ", "two ", "three four ", "five"})
            out << part << std::flush;
        out << "\n> " << std::flush;
    }
    CHECK(out.str() == "one two three four \nfive\n> ");
}

TEST_CASE(
    "marks become colours if colour is wanted, end with their line, and are escaped otherwise") {
    const std::string marked = "\x0e"
                               "bhead\x0f rest \x0e"
                               "ropen\nnext\x0f \x0eQ\n";
    CHECK(written(marked, {0, true}) ==
          "\x1b[1mhead\x1b[0m rest \x1b[1;31mopen\x1b[0m\nnext\\u000f \\u000eQ\n");
    CHECK(written("\x0e"
                  "bhead\x0f\n",
                  {}) == "\\u000ebhead\\u000f\n");
    CHECK(written("\x1b[31mred\n", {0, true}) == "\\u001b[31mred\n"); // an old book's own
}

TEST_CASE("no table and no sentence is wider than the terminal", "[program]") {
    const Shop shop;
    fill(shop);
    for (const unsigned columns : {40U, 60U, 80U, 132U})
        for (const std::vector<std::string>& words : {std::vector<std::string>{"list"},
                                                      {"visit", "list", "DEMO-03"},
                                                      {"vehicle", "list"},
                                                      {"visit", "show", "1"},
                                                      {"suggest"},
                                                      {"--help"}}) {
            const ProgramResult shown =
                runInTerminal(words, static_cast<unsigned short>(columns), optionsOf(shop));
            INFO(columns << "\n" << shown.out);
            CHECK(shown.exit == 0);
            CHECK(longestLine(withoutColours(shown.out)) <= columns);
        }
    CHECK_THAT(withoutColours(runInTerminal({"list"}, 60, optionsOf(shop)).out),
               Contains("third") && Contains("load"));
    CHECK_THAT(runInTerminal({"list"}, 20, optionsOf(shop)).out, Contains("vehicle: DEMO-03"));
    CHECK(longestLine(shop.run({"list"}).out) > 100); // a pipe has no width
}

// NO_COLOR: no-color.org, "when present and not an empty string".
TEST_CASE("colour goes to a terminal alone, and not if NO_COLOR or a dumb terminal forbids it",
          "[program]") {
    const Shop shop;
    fill(shop);
    RunOptions options = optionsOf(shop);
    CHECK_THAT(runInTerminal({"list"}, 80, options).out, Contains("\x1b[1m"));
    CHECK_THAT(runInTerminal({"visit", "show", "9"}, 80, options).out,
               Contains("\x1b[1;31mswarfbook:\x1b[0m"));
    CHECK_THAT(shop.run({"list"}).out, !Contains("\x1b"));
    CHECK_THAT(shop.run({"visit", "show", "9"}).err, !Contains("\x1b"));
    options.environment["NO_COLOR"] = "1";
    CHECK_THAT(runInTerminal({"list"}, 80, options).out, !Contains("\x1b"));
    options.environment["NO_COLOR"] = "";
    options.environment["TERM"] = "dumb";
    CHECK_THAT(runInTerminal({"list"}, 80, options).out, !Contains("\x1b"));
}

// Black on white for a terminal of any colours: ISO/IEC 18004 wants dark modules on a light ground.
TEST_CASE("the code that pairs a phone reaches the terminal in its colours", "[program]") {
    const Shop shop;
    REQUIRE(shop.run({"vehicle", "add", "DEMO-01"}).exit == 0);
    const ProgramResult shown =
        runInTerminal({"serve", "--port", "0"}, 80, optionsOf(shop), [](const std::string& sent) {
            return sent.find("Ctrl-C, ends") == std::string::npos ? "" : "stop\n";
        });
    CHECK_THAT(shown.out, Contains("\x1b[30;107m") && !Contains("u001b"));
}

TEST_CASE("the bar says how many photos are done, and fits its line") {
    CHECK(progressBar(1, 4, "a.jpg", 60) == "[....................] 1 of 4  a.jpg");
    CHECK(progressBar(3, 4, "a.jpg", 60) == "[##########..........] 3 of 4  a.jpg");
    CHECK(progressBar(3, 4, std::string(200, 'a') + ".jpg", 60).size() <= 60);
    CHECK(progressBar(3, 4, "\x1b[2J", 60) == "[##########..........] 3 of 4  \\u001b[2J");
    CHECK(progressBar(3, 4, "a.jpg", 10).size() == 10);
}

TEST_CASE("several photos show progress: a bar in a terminal, else a line each", "[program]") {
    const Shop shop;
    const std::string photo = demoPhoto();
    const std::vector<std::string> words{"measure", photo, photo};
    const ProgramResult piped = shop.run(words);
    CHECK(piped.exit == 0);
    CHECK(piped.err == "photo 1 of 2: history-1.jpg\nphoto 2 of 2: history-1.jpg\n");
    CHECK(shop.run({"measure", "--quiet", photo, photo}).err.empty());
    CHECK(shop.run({"measure", photo}).err.empty());
    const ProgramResult shown = runInTerminal(words, 80, optionsOf(shop));
    CHECK(shown.exit == 0);
    CHECK_THAT(shown.out, Contains("[..........") && Contains("] 1 of 2  history-1.jpg") &&
                              Contains("[##########..........] 2 of 2") &&
                              !Contains("photo 1 of 2"));
    // the bar is removed before a result is printed
    CHECK_THAT(shown.out, Contains("\r\x1b[Khistory-1.jpg (white card)"));
}

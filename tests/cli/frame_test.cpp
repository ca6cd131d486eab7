// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/run_program.h"
#include "rendered/demo_photos.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <sstream>

using namespace swarfbook::test;
namespace fs = std::filesystem;

namespace {

const std::vector<std::string> verbs{
    "card",         "measure", "unit",    "vehicle",  "visit",     "add",     "flush",   "photo",
    "piece",        "walk",    "observe", "compare",  "eliminate", "suggest", "report",  "check",
    "track-record", "list",    "export",  "settings", "book",      "backup",  "restore", "serve"};

std::vector<std::string> linesOf(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);)
        lines.push_back(line);
    return lines;
}

/// A line of shell, run in this folder with the program on the PATH as swarfbook.
ProgramResult runShell(const std::string& line, const fs::path& folder = {}) {
    RunOptions shell;
    shell.program = "/bin/sh";
    shell.folder = folder;
    shell.environment["PATH"] =
        fs::path(SWARFBOOK_PROGRAM).parent_path().string() + ":/usr/bin:/bin";
    return runProgram({"-c", line}, shell);
}

/// The lines under "example:" in a verb's help, joined where the shell would join them.
std::string exampleIn(const std::string& help) {
    const auto at = help.find("\nexample:\n");
    return at == std::string::npos ? "" : help.substr(at + 10);
}

/// A folder that looks like the project's own to whoever reads the demo photos.
void layDemoPhotos(const TemporaryFolder& bench) {
    fs::create_directory_symlink(demoPhotos(), bench.path() / "demo-images");
}

} // namespace

TEST_CASE("the help names every verb in one line each, in the order of a visit", "[program]") {
    const ProgramResult help = runProgram({"--help"});
    CHECK(help.exit == 0);
    CHECK(help.err.empty());
    std::vector<std::string> named;
    for (const std::string& line : linesOf(help.out)) {
        CAPTURE(line);
        CHECK(line.size() <= 80);
        if (line.starts_with("  ") && line.size() > 16) {
            named.push_back(line.substr(2, line.find(' ', 2) - 2));
            CHECK(std::isupper(line[15]) != 0);
        }
    }
    CHECK(named == verbs);
    CHECK(runProgram({"help"}).out == help.out);
    CHECK(runProgram({"-h"}).out == help.out);
}

TEST_CASE("-h, --help and help before the verb show the same help of a verb", "[program]") {
    for (const std::string verb : {"measure", "visit", "observe"}) {
        const std::string help = runProgram({verb, "--help"}).out;
        CHECK_THAT(help, Catch::Contains("-h [ --help ]") && Catch::Contains("--quiet"));
        CHECK(runProgram({verb, "-h"}).out == help);
        CHECK(runProgram({"help", verb}).out == help);
        CHECK(runProgram({"--help", verb}).out == help);
    }
    CHECK(runProgram({"help", "observe", "solenoid"}).out ==
          runProgram({"observe", "solenoid", "--help"}).out);
    CHECK(runProgram({"help", "weigh"}).exit == 2);
}

TEST_CASE("--quiet leaves remarks out, not results and refusals", "[program]") {
    const TemporaryFolder bench;
    RunOptions options;
    options.folder = bench.path();
    const std::vector<std::string> card{"card", "--layout", "close", "--book", "b", "--out"};
    std::vector<std::string> loud = card, quiet = card;
    loud.push_back("a.pdf");
    quiet.insert(quiet.end(), {"b.pdf", "--quiet"});
    CHECK_FALSE(runProgram(loud, options).err.empty());
    const ProgramResult still = runProgram(quiet, options);
    CHECK(still.err.empty());
    CHECK_THAT(still.out, Catch::Contains("Card "));
    CHECK_FALSE(runProgram({"--quiet", "visit", "show", "1", "--book", "b"}, options).err.empty());
}

TEST_CASE("without a verb the help goes to standard error as wrong use", "[program]") {
    const ProgramResult nothing = runProgram({});
    CHECK(nothing.exit == 2);
    CHECK(nothing.out.empty());
    CHECK_THAT(nothing.err, Catch::Contains("usage: swarfbook VERB"));
}

TEST_CASE("an unknown verb is answered with a sentence that says where to look", "[program]") {
    const ProgramResult unknown = runProgram({"weigh", "it"});
    CHECK(unknown.exit == 2);
    CHECK(unknown.out.empty());
    CHECK_THAT(unknown.err, Catch::Contains("\"weigh\"") && Catch::Contains("--help"));
    CHECK(linesOf(unknown.err).size() == 1);
}

TEST_CASE("every verb's help shows how it is used and gives an example", "[program]") {
    for (const std::string& verb : verbs) {
        CAPTURE(verb);
        const ProgramResult help = runProgram({verb, "--help"});
        CHECK(help.exit == 0);
        CHECK(help.err.empty());
        CHECK_THAT(help.out, Catch::Contains("usage: swarfbook " + verb));
        CHECK_THAT(exampleIn(help.out), Catch::Contains("swarfbook " + verb));
    }
}

TEST_CASE("every verb answers an option it does not know with a sentence", "[program]") {
    for (const std::string& verb : verbs) {
        CAPTURE(verb);
        const ProgramResult wrong = runProgram({verb, "--no-such-option"});
        CHECK(wrong.exit == 2);
        CHECK(wrong.out.empty());
        CHECK_THAT(wrong.err, Catch::Contains("no-such-option") &&
                                  Catch::Contains("swarfbook " + verb + " --help"));
    }
}

TEST_CASE("the version is one line", "[program]") {
    const ProgramResult version = runProgram({"--version"});
    CHECK(version.exit == 0);
    CHECK(linesOf(version.out).size() == 1);
    CHECK_THAT(version.out, Catch::StartsWith("swarfbook "));
}

TEST_CASE("a standard output that takes nothing is a failure of the machine, not a success",
          "[program]") {
    CHECK(runShell("swarfbook --help > /dev/full").exit == 3);
}

TEST_CASE("every verb's example works as it stands from the project's folder", "[program]") {
    const TemporaryFolder bench;
    layDemoPhotos(bench);
    for (const std::string& verb : verbs) {
        const std::string example = exampleIn(runProgram({verb, "--help"}).out);
        CAPTURE(verb, example);
        REQUIRE_FALSE(example.empty());
        const ProgramResult ran = runShell(example, bench.path());
        INFO(ran.err);
        CHECK(ran.exit == 0);
    }
}

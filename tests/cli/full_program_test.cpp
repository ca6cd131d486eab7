// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/full_program.h"
#include "cli/run_program.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <string>

using namespace swarfbook;
using namespace swarfbook::test;
namespace fs = std::filesystem;

namespace {

/// The shared libraries that a program loads at its start, as the dynamic loader lists them in
/// place of running it (ld.so(8), LD_TRACE_LOADED_OBJECTS).
std::string librariesOf(const std::string& program) {
    RunOptions options;
    options.program = program;
    options.environment = {{"LD_TRACE_LOADED_OBJECTS", "1"}};
    return runProgram({}, options).out;
}

const fs::path fullProgram = fs::path(SWARFBOOK_PROGRAM).parent_path() / "swarfbook-full";

} // namespace

TEST_CASE("Verbs of the book alone are quick, photos and pages are not", "[cli]") {
    using cli::isQuick;
    CHECK(isQuick({"--version"}));
    CHECK(isQuick({"vehicle", "list"}));
    CHECK(isQuick({"visit", "show", "1"}));
    CHECK(isQuick({"suggest", "--help"}));
    CHECK_FALSE(isQuick({"visit", "measure", "1"}));
    CHECK_FALSE(isQuick({"visit", "--book", "b", "measure", "1"}));
    CHECK_FALSE(isQuick({"piece", "--photo", "1", "--review"}));
    CHECK(isQuick({"observe", "codes", "P0733"}));
    CHECK_FALSE(isQuick({"observe", "did", "filter renewed", "--photo-after", "a.jpg"}));
    CHECK_FALSE(isQuick({"observe", "did", "filter renewed", "--photo-before=a.jpg"}));
    CHECK_FALSE(isQuick({"observe", "--file", "typed.txt"}));
    CHECK_FALSE(isQuick({"measure", "a.jpg"}));
    CHECK_FALSE(isQuick({"--help"}));
    CHECK_FALSE(isQuick({"no-such-verb"}));
    CHECK_FALSE(isQuick({}));
}

TEST_CASE("The program that is typed loads no library for pictures, networks or pages",
          "[cli][program]") {
    const std::string quick = librariesOf(SWARFBOOK_PROGRAM);
    const std::string full = librariesOf(fullProgram);
    for (const char* library : {"libopencv", "libdnnl", "libcairo"}) {
        INFO(library);
        CHECK(full.find(library) != std::string::npos); // the list is a list
        CHECK(quick.find(library) == std::string::npos);
    }
    CHECK(quick.find("libheif") == std::string::npos);
    CHECK(quick.find("libsqlite3") != std::string::npos);
}

TEST_CASE("Installed elsewhere, the program finds the full one and its data", "[cli][program]") {
    const TemporaryFolder prefix;
    const fs::path bin = prefix.path() / "bin", full = prefix.path() / "libexec" / "swarfbook",
                   data = prefix.path() / "share" / "swarfbook";
    for (const fs::path& folder : {bin, full, data})
        fs::create_directories(folder);
    fs::copy_file(SWARFBOOK_PROGRAM, bin / "swarfbook");
    fs::copy_file(fullProgram, full / "swarfbook-full");
    for (const char* folder : {"calibration", "models"})
        fs::create_directory_symlink(fs::path(SWARFBOOK_SOURCE_DIR) / folder, data / folder);
    fs::create_directory(prefix.path() / "elsewhere");
    fs::create_symlink(bin / "swarfbook", prefix.path() / "elsewhere" / "sb");
    RunOptions options;
    options.environment = {{"SWARFBOOK_DATA", ""},
                           {"SWARFBOOK_BOOK", (prefix.path() / "book").string()}};
    for (const fs::path& program : {bin / "swarfbook", prefix.path() / "elsewhere" / "sb"}) {
        options.program = program;
        const ProgramResult card = runProgram(
            {"card", "--layout", "close", "--out", (prefix.path() / "card.pdf").string()}, options);
        INFO(card.err);
        CHECK(card.exit == 0);
        CHECK(fs::remove(prefix.path() / "card.pdf"));
        CHECK(runProgram({"vehicle", "--help"}, options).exit == 0);
    }
}

TEST_CASE("Without the full program, photos are answered by a sentence and exit code 3",
          "[cli][program]") {
    const TemporaryFolder lone;
    fs::copy_file(SWARFBOOK_PROGRAM, lone.path() / "swarfbook");
    RunOptions options;
    options.program = lone.path() / "swarfbook";
    const ProgramResult version = runProgram({"--version"}, options);
    CHECK(version.exit == 0);
    const ProgramResult measure = runProgram({"measure", "a.jpg"}, options);
    CHECK(measure.exit == 3);
    CHECK(measure.err.find("swarfbook-full cannot be started") != std::string::npos);
    CHECK(measure.err.find("install swarfbook again") != std::string::npos);
}

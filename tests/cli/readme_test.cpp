// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/run_program.h"
#include "rendered/demo_photos.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <sstream>

using namespace swarfbook::test;
namespace fs = std::filesystem;

namespace {

/// The README's lines to paste, in their order, without those on the demo's own book: that needs
/// demo-images/run, which runs the same commands.
std::vector<std::string> linesToPaste() {
    std::vector<std::string> lines;
    std::istringstream readme(contentOf(fs::path(SWARFBOOK_SOURCE_DIR) / "README.md"));
    for (std::string line; std::getline(readme, line);)
        if ((line.starts_with("    swarfbook ") || line.starts_with("    printf ")) &&
            line.find("build/demo/book") == std::string::npos)
            lines.push_back(line.substr(4));
    return lines;
}

} // namespace

TEST_CASE("the README's lines work when pasted in order and lead to a sound book", "[program]") {
    const TemporaryFolder desk;
    fs::create_directory_symlink(demoPhotos(), desk.path() / "demo-images");
    RunOptions shell;
    shell.program = "/bin/bash";
    shell.folder = desk.path();
    shell.input = "stop\n"; // the answers of a walk
    shell.environment["PATH"] =
        fs::path(SWARFBOOK_PROGRAM).parent_path().string() + ":/usr/bin:/bin";
    shell.environment["HOME"] = desk.path().string();
    for (const char* unset : {"SWARFBOOK_BOOK", "XDG_DATA_HOME"})
        shell.environment[unset] = "";
    const auto run = [&](const std::string& line) { return runProgram({"-c", line}, shell); };
    std::size_t pasted = 0;
    for (const std::string& line : linesToPaste()) {
        const ProgramResult ran = run(line);
        CAPTURE(line, ran.out, ran.err);
        CHECK(ran.exit == 0);
        ++pasted;
    }
    CHECK(pasted > 40); // the reader reads
    const auto vehicle = nlohmann::json::parse(run("swarfbook vehicle show VAN-8 --json").out);
    REQUIRE(vehicle.at("visits").size() == 1);
    CHECK(vehicle.at("visits")[0].at("photos") == 1);
    CHECK(vehicle.at("visits")[0].at("odometer_km") == 120600.0);
    CHECK(run("swarfbook book check").exit == 0);
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "elimination/bench_tests.h"
#include "elimination/charts.h"
#include "files/temporary_folder.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <fstream>

using namespace swarfbook;
using namespace swarfbook::test;
namespace fs = std::filesystem;

namespace {

nlohmann::json settingsAsShipped() {
    std::ifstream in(fs::path(SWARFBOOK_SOURCE_DIR) / "models/bench-tests.json");
    return nlohmann::json::parse(in);
}

void refuses(const nlohmann::json& settings, const std::string& says) {
    const TemporaryFile file(settings.dump());
    CHECK_THROWS_WITH(loadBenchTests(file.path()), Catch::Contains(says));
}

} // namespace

TEST_CASE("every setting has a unit and a source beside it") {
    CHECK(benchTests().settings.size() == 18);
    for (const auto& [name, setting] : benchTests().settings) {
        INFO(name);
        CHECK_FALSE(setting.unit.empty());
        CHECK_FALSE(setting.source.empty());
    }
}

TEST_CASE("settings that make no sense are refused with their name") {
    CHECK_THROWS_AS(loadBenchTests("nowhere.json"), ToolError);
    auto settings = settingsAsShipped();
    SECTION("no time at all") {
        settings["settings"]["air_check"]["value"] = 0;
        refuses(settings, "air_check");
    }
    SECTION("missing") {
        settings["settings"].erase("drive_a_gear");
        refuses(settings, "drive_a_gear");
    }
    SECTION("no source") {
        settings["settings"]["check_level"]["source"] = "";
        refuses(settings, "check_level");
    }
    SECTION("a good gear may not outweigh a bad one") {
        settings["settings"]["weight_good"]["value"] = 1;
        refuses(settings, "weight_bad");
    }
}

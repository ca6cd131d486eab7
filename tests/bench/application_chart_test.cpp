// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/application_chart.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

using namespace swarfbook;
namespace fs = std::filesystem;

namespace {
fs::path demoFile() {
    return fs::path(SWARFBOOK_SOURCE_DIR) / "models/units/demo-5.json";
}
} // namespace

TEST_CASE("the invented unit has five speeds, five solenoids and is sound") {
    const ApplicationChart chart = loadApplicationChart(demoFile());
    CHECK(chart.unit == "Demo 5");
    CHECK(chart.solenoids.size() == 5);
    int forward = 0;
    for (const auto& gear : chart.gears)
        forward += gear.name != "R" && !gear.manualRange;
    CHECK(forward == 5);
    CHECK(inconsistencies(chart).empty());
}

TEST_CASE("what does not fit together in a chart is named") {
    ApplicationChart chart = loadApplicationChart(demoFile());
    SECTION("a gear that nothing holds") {
        chart.gears[3].elements.clear();
        CHECK(inconsistencies(chart).front() == "Nothing holds gear 2.");
    }
    SECTION("two gears alike") {
        chart.gears[4].elements = chart.gears[3].elements;
        CHECK(inconsistencies(chart).front() == "Gears 2 and 3 are held by the same elements.");
    }
    SECTION("a solenoid that feeds nothing") {
        chart.solenoids[0].feeds.clear();
        CHECK(inconsistencies(chart).front() == "Solenoid A feeds nothing.");
    }
    SECTION("an element that is not declared") {
        chart.gears[1].elements["Z"] = Applied::yes;
        CHECK_THAT(inconsistencies(chart).front(), Catch::Contains("Z"));
    }
}

TEST_CASE("a chart that cannot be read says which file and why") {
    CHECK_THROWS_WITH(loadApplicationChart("nowhere.json"), Catch::Contains("nowhere.json"));
    const fs::path broken = fs::temp_directory_path() / "swarfbook-broken-chart.json";
    std::ofstream(broken) << R"({"unit": "x", "source": "y", "elements":
        [{"name": "P", "kind": "sprocket"}]})";
    CHECK_THROWS_WITH(loadApplicationChart(broken), Catch::Contains("sprocket"));
    fs::remove(broken);
}

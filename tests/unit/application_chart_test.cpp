// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "files/temporary_folder.h"
#include "unit/application_chart.h"
#include "unit/chart_check.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sys/stat.h>

using namespace swarfbook;
using swarfbook::test::TemporaryFile;
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

TEST_CASE("contradictions in a chart are named") {
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
    SECTION("two gears alike in their solenoids") {
        chart.gears[4].solenoids = chart.gears[3].solenoids;
        CHECK(inconsistencies(chart).front() ==
              "Gears 2 and 3 have the same states of the solenoids.");
    }
    SECTION("an element that no gear applies") {
        chart.elements.push_back({"Z", ElementKind::brake});
        CHECK(inconsistencies(chart).front() == "Element Z is applied in no gear.");
    }
}

TEST_CASE("a name in a chart that is not declared is named") {
    ApplicationChart chart = loadApplicationChart(demoFile());
    SECTION("a solenoid, a gear and an element that a bore names") {
        chart.bores[0].solenoid = "none";
        chart.bores[1].gears.push_back("9");
        chart.bores[2].feeds.push_back("Z");
        CHECK(inconsistencies(chart).size() == 3);
    }
    SECTION("a manual range of no gear") {
        chart.gears[2].name = "low";
        CHECK_THAT(inconsistencies(chart).front(), Catch::Contains("manual range low"));
    }
    SECTION("bands and windows upside down") {
        std::swap(chart.solenoids[0].bandLow, chart.solenoids[0].bandHigh);
        std::swap(chart.levelFrom, chart.levelTo);
        CHECK(inconsistencies(chart).size() == 2);
    }
    SECTION("an element that is not declared") {
        chart.gears[1].elements["Z"] = Applied::yes;
        CHECK_THAT(inconsistencies(chart).front(), Catch::Contains("Z"));
    }
}

TEST_CASE("the check reports the pattern with current removed, whether a gear has it or not") {
    ApplicationChart chart = loadApplicationChart(demoFile());
    CHECK(gearsWithCurrentRemoved(chart).empty());
    CHECK_THAT(remarks(chart).front(), Catch::Contains("belongs to no gear"));
    chart.currentRemoved["C"] = SolenoidCommand::on;
    CHECK(gearsWithCurrentRemoved(chart) == std::vector<std::string>{"R"});
    CHECK(inconsistencies(chart).empty());
}

TEST_CASE("a chart is written and read without loss") {
    const ApplicationChart chart = loadApplicationChart(demoFile());
    CHECK(toJson(chartFromJson(toJson(chart))) == toJson(chart));
    ApplicationChart other = chart;
    other.solenoids[0].feeds = {{"P", true}, {"Q", false}};
    other.solenoids[0].code = "shift C";
    const ApplicationChart again = chartFromJson(toJson(other));
    CHECK_FALSE(again.solenoids[0].feeds[1].risesWhenOn);
    CHECK(again.solenoids[0].code == "shift C");
}

TEST_CASE("a one-way clutch bridged in the manual range counts as idle there") {
    const ApplicationChart chart = loadApplicationChart(demoFile());
    const auto& oneWay = *chart.element("W");
    CHECK(stateIn(chart, *chart.gear("1"), oneWay) == Applied::yes);
    CHECK(chart.manualRangeOf("1") == chart.gear("1 by hand"));
    CHECK(stateIn(chart, *chart.gear("1 by hand"), oneWay) == Applied::idle);
    CHECK(chart.manualRangeOf("2") == nullptr);
}

TEST_CASE("a chart that cannot be read says which file and why") {
    CHECK_THROWS_WITH(loadApplicationChart("nowhere.json"), Catch::Contains("nowhere.json"));
    const TemporaryFile broken(R"({"unit": "x", "source": "y", "elements":
        [{"name": "P", "kind": "sprocket"}]})");
    CHECK_THROWS_WITH(loadApplicationChart(broken.path()), Catch::Contains("sprocket"));
}

TEST_CASE("a file that is not ordinary, or far too large, is refused as a chart without waiting") {
    const swarfbook::test::TemporaryFolder place;
    const fs::path& folder = place.path();
    REQUIRE(mkfifo((folder / "pipe.json").c_str(), 0600) == 0);
    std::ofstream(folder / "large.json") << "{";
    fs::resize_file(folder / "large.json", largestChartBytes + 1);
    CHECK_THROWS_AS(loadApplicationChart(folder / "pipe.json"), ToolError);
    CHECK_THROWS_WITH(loadApplicationChart(folder / "large.json"), Catch::Contains("too large"));
    CHECK_THROWS_AS(loadApplicationChart(folder), ToolError);
    CHECK_THROWS_AS(loadApplicationChart(folder / "none.json"), ToolError);
    CHECK_THROWS_WITH(chartFromText("{", "a.json"), Catch::Contains("a.json"));
}

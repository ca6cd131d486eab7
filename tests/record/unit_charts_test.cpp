// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/run_program.h"
#include "record/unit_charts.h"

#include <catch2/catch.hpp>

#include <fstream>

using namespace swarfbook;
using swarfbook::test::TemporaryFolder;
namespace fs = std::filesystem;

namespace {

const fs::path models = fs::path(SWARFBOOK_SOURCE_DIR) / "models";

/// A folder of charts in which these files lie, each a copy of the demo unit under another name.
void layChart(const fs::path& folder, const std::string& file, const std::string& unit) {
    fs::create_directories(folder);
    ApplicationChart chart = loadApplicationChart(models / "units/demo-5.json");
    chart.unit = unit;
    std::ofstream(folder / file) << toJson(chart).dump();
}

} // namespace

TEST_CASE("a unit's file is named after it") {
    CHECK(chartFileName("Demo 5") == "demo-5.json");
    CHECK(chartFileName("  A/B..C ") == "a-b-c.json");
    CHECK_THROWS_AS(chartFileName("../"), UsageError);
}

TEST_CASE("a chart is found by its unit's name or file's name, the book's own first") {
    const TemporaryFolder folder;
    const ChartFolders folders{folder.path() / "units", models / "units"};
    CHECK(findChart(folders, "DEMO 5") == models / "units/demo-5.json");
    CHECK(findChart(folders, "demo-5") == models / "units/demo-5.json");
    CHECK_FALSE(findChart(folders, "Other 9"));
    CHECK_FALSE(findChart(folders, ""));
    layChart(folders.ofBook, "demo-5.json", "Demo 5");
    layChart(folders.ofBook, "something.json", "Other 9");
    CHECK(findChart(folders, "Demo 5") == folders.ofBook / "demo-5.json");
    CHECK(findChart(folders, "other 9") == folders.ofBook / "something.json");
    CHECK(allCharts(folders).size() == 2);
}

TEST_CASE("a missing chart gives a sentence that says what to do") {
    const TemporaryFolder folder;
    const ChartFolders folders{folder.path() / "units", models / "units"};
    CHECK(unitAtHand(folders, "Demo 5").chart);
    CHECK_THAT(unitAtHand(folders, "").none, Catch::Contains("vehicle unit LABEL"));
    CHECK_THAT(unitAtHand(folders, "Other 9").none, Catch::Contains("unit new \"Other 9\""));
    fs::create_directories(folders.ofBook);
    std::ofstream(folders.ofBook / "broken-1.json") << "{";
    const UnitAtHand broken = unitAtHand(folders, "Broken 1");
    CHECK_THAT(broken.none, Catch::Contains("unit check \"Broken 1\"") && !Catch::Contains("/"));
    CHECK_THAT(broken.detail, Catch::Contains("broken-1.json"));
}

TEST_CASE("a visit's evidence knows the unit of its vehicle") {
    Book book = Book::inMemory();
    Vehicle vehicle;
    vehicle.label = "DEMO-03";
    vehicle.unit = "Demo 5";
    vehicle = book.addVehicle(vehicle);
    Visit visit;
    visit.vehicleId = vehicle.id;
    visit.date = "2025-03-14";
    visit = book.addVisit(visit);
    const Evidence evidence = evidenceWithUnit(book, visit.id, models);
    REQUIRE(evidence.unit);
    CHECK(evidence.unit->chart.unit == "Demo 5");
    CHECK_THROWS_AS(evidenceWithUnit(book, visit.id, models, "Other 9"), UsageError);
}

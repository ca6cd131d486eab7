// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "files/temporary_folder.h"
#include "rendered/rendered_card.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <limits>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

const std::filesystem::path geometry =
    std::filesystem::path(SWARFBOOK_SOURCE_DIR) / "calibration/reference-card.json";

/// Everything printed on the card as upright boxes; slanted squares by their turned extent.
std::vector<CardRect> boxes(const CardLayout& layout) {
    std::vector<CardRect> all{layout.window};
    const auto add = [&](PointOnCard centre, double side) {
        all.push_back({centre.x - side / 2.0, centre.y - side / 2.0, side, side});
    };
    for (const auto& [id, centre] : layout.markers)
        add(centre, layout.markerSize * 10.0 / 8.0); // with the white module all round
    for (const GreyPatch& patch : layout.patches)
        add(patch.centre, layout.patchSize);
    const double turn = layout.slantedTurnDeg * 3.14159265358979 / 180.0;
    for (const PointOnCard& centre : layout.slantedCentres)
        add(centre, layout.slantedSize * (std::cos(turn) + std::sin(turn)));
    all.push_back(layout.serialCode);
    all.push_back({layout.checkBarX0, layout.checkBarY - 0.15, layout.checkBarLength(), 0.3});
    return all;
}

bool overlap(const CardRect& a, const CardRect& b) {
    return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height &&
           b.y < a.y + a.height;
}

void writeText(const std::filesystem::path& file, const std::string& text) {
    std::ofstream(file) << text;
}

} // namespace

// Source: the specified table of the reference card, to which the cards in use were printed.
TEST_CASE("the close card is loaded with its specified geometry") {
    const CardLayout close = layoutNamed("close");
    CHECK(close.outer.width == 104.0);
    CHECK(close.outer.height == 80.0);
    CHECK(close.window.x == 20.0);
    CHECK(close.window.y == 18.0);
    CHECK(close.window.width == 64.0);
    CHECK(close.window.height == 44.0);
    CHECK(close.markerSize == 10.0);
    REQUIRE(close.markers.size() == 10);
    CHECK(close.markers.at(10).x == 9.0);
    CHECK(close.markers.at(19).x == 95.0);
    CHECK(close.markers.at(19).y == 71.0);
    REQUIRE(close.patches.size() == 6);
    CHECK(close.patches[1].ink == 0.4);
    CHECK(close.patches[1].centre.x == 52.0);
    CHECK(close.slantedCentres.size() == 4);
    CHECK(close.slantedTurnDeg == 5.0);
    CHECK(close.checkBarLength() == 80.0);
}

TEST_CASE("the wide card is loaded with its specified geometry") {
    const CardLayout wide = layoutNamed("wide");
    CHECK(wide.outer.width == 190.0);
    CHECK(wide.outer.height == 140.0);
    CHECK(wide.window.x == 30.0);
    CHECK(wide.window.height == 90.0);
    CHECK(wide.markerSize == 15.0);
    CHECK(wide.markers.at(35).x == 177.0);
    CHECK(wide.markers.at(35).y == 70.0);
    CHECK(wide.patchSize == 12.0);
    CHECK(wide.checkBarLength() == 150.0);
    CHECK(wide.serialCode.width == 8.0);
}

TEST_CASE("nothing on a card overlaps and everything lies inside its outline") {
    for (const CardLayout& layout : loadCardLayouts(geometry)) {
        const auto all = boxes(layout);
        for (std::size_t i = 0; i < all.size(); ++i) {
            INFO(layout.name << " item " << i);
            CHECK(all[i].x >= 0.0);
            CHECK(all[i].y >= 0.0);
            CHECK(all[i].x + all[i].width <= layout.outer.width);
            CHECK(all[i].y + all[i].height <= layout.outer.height);
            for (std::size_t j = i + 1; j < all.size(); ++j)
                CHECK_FALSE(overlap(all[i], all[j]));
        }
    }
}

TEST_CASE("no two layouts share a marker, so that the markers identify the card") {
    const CardLayout close = layoutNamed("close");
    for (const auto& [id, centre] : layoutNamed("wide").markers)
        CHECK(close.markers.count(id) == 0);
}

TEST_CASE("a missing or damaged geometry is refused with its name") {
    const TemporaryFolder folder;
    const auto file = folder / "card.json";
    CHECK_THROWS_AS(loadCardLayouts(folder / "absent.json"), ToolError);
    for (const std::string text :
         {"", "{", "{}", R"({"layouts": {}})", R"({"layouts": {"close": {"outer": [104]}}})",
          R"({"layouts": {"close": 3}})"}) {
        writeText(file, text);
        INFO(text);
        CHECK_THROWS_WITH(loadCardLayouts(file), Catch::Contains("card.json"));
    }
}

// Source: the ratio is arithmetic. Uncertainty: a reading good to 0.1 mm either way, rectangular,
// has the standard uncertainty 0.1 / sqrt 3 (JCGM 100:2008, 4.3.7).
TEST_CASE("a bar read as 76.8 mm means that the card was printed at 96 percent") {
    const PrintScale scale = printScaleFromBar(layoutNamed("close"), Millimetres(76.8));
    CHECK(scale.checked);
    CHECK(scale.value == Approx(0.96));
    CHECK(scale.standardUncertainty == Approx(0.1 / std::sqrt(3.0) / 80.0).epsilon(1e-6));
}

TEST_CASE("an impossible bar is wrong use") {
    const CardLayout close = layoutNamed("close");
    for (const double reading :
         {0.0, -80.0, 71.9, 88.1, 3.15, 150.0, std::numeric_limits<double>::infinity(),
          std::numeric_limits<double>::quiet_NaN()})
        CHECK_THROWS_AS(printScaleFromBar(close, Millimetres(reading)), UsageError);
    CHECK_NOTHROW(printScaleFromBar(close, Millimetres(72.1)));
    CHECK_NOTHROW(printScaleFromBar(close, Millimetres(87.9)));
}

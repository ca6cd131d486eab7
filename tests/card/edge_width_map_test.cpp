// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/calibrated_photo.h"
#include "card/edge_width_map.h"
#include "rendered/rendered_card.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

/// Four squares whose opposite edges differ by `scatter` px about the width that `widthAt` gives.
template <class Width> std::vector<SquareWidths> squares(double scatter, const Width& widthAt) {
    std::vector<SquareWidths> all;
    for (const PointOnCard at : layoutNamed("close").slantedCentres) {
        const double w = widthAt(at);
        all.push_back(
            {at, {w - scatter / 2, w + scatter / 2}, {2.0 + scatter / 2, 2.0 - scatter / 2}});
    }
    return all;
}

} // namespace

// Closed form: a bilinear function is its own interpolation.
TEST_CASE("edge widths between four squares are bilinear, each direction by itself", "[card]") {
    const auto width = [](PointOnCard p) {
        return 1.5 + 0.02 * p.x + 0.01 * p.y + 0.0003 * p.x * p.y;
    };
    const auto map = EdgeWidthMap::through(squares(0.05, width));
    REQUIRE(map);
    for (const PointOnCard p : {PointOnCard{20, 18}, {84, 62}, {50, 40}, {31, 57}}) {
        CHECK(map->at(p).alongX.value() == Approx(width(p)));
        CHECK(map->at(p).alongY.value() == Approx(2.0));
        CHECK(map->at(p).wider().value() == Approx(width(p)));
    }
    CHECK(map->over(layoutNamed("close").window).size() == 5);
}

TEST_CASE("three squares give a plane, two give nothing", "[card]") {
    const auto width = [](PointOnCard p) { return 1.5 + 0.02 * p.x + 0.01 * p.y; };
    auto some = squares(0.02, width);
    some.pop_back();
    const auto map = EdgeWidthMap::through(some);
    REQUIRE(map);
    CHECK(map->at({84, 62}).alongX.value() == Approx(width({84, 62})));
    some.pop_back();
    CHECK_FALSE(EdgeWidthMap::through(some));
}

TEST_CASE("an edge with something lying on it does not count as blur", "[card]") {
    const auto width = [](PointOnCard p) { return 1.5 + 0.02 * p.x; };
    const auto clean = EdgeWidthMap::through(squares(0.05, width));
    auto some = squares(0.05, width);
    some[2].alongX[1] = 40.0; // a flake
    some[1].alongY[0] = 9.0;
    const auto map = EdgeWidthMap::through(some);
    REQUIRE(clean);
    REQUIRE(map);
    for (const PointOnCard p : {PointOnCard{20, 18}, {84, 62}, {84, 18}}) {
        CHECK(map->at(p).alongX.value() == Approx(clean->at(p).alongX.value()).margin(0.05));
        CHECK(map->at(p).alongY.value() == Approx(2.0).margin(0.05));
    }
}

// Analysis of variance: two squares d below and two d above, opposite edges e above and below their
// square: between 8 d^2 / 3, within 2 e^2. The tables' F(3, 4) at 1 % is 16.69, so the border is
// d = e sqrt(16.69 3 / 4).
TEST_CASE("squares that differ no more than their own edges do are even", "[card]") {
    const auto twoAndTwo = [](double d) {
        return [d](PointOnCard p) { return p.x < 50 ? 2.0 - d : 2.0 + d; };
    };
    const double scatter = 0.4; // edges +- 0.2
    const double border = 0.2 * std::sqrt(16.69 * 3.0 / 4.0);
    CHECK_FALSE(EdgeWidthMap::through(squares(scatter, twoAndTwo(0.97 * border))));
    CHECK(EdgeWidthMap::through(squares(scatter, twoAndTwo(1.03 * border))));
}

// Drawn: Gaussian blur that grows from nothing at the left to 1.3 px at the right, 0.7 px all over;
// a Gaussian edge is 2.5631 sigma wide (10 to 90 %), the pixel adds the variance 1/12.
TEST_CASE("a photo softer on one side says how soft, and has that side's size limit and advice",
          "[card]") {
    Drawing drawing;
    drawing.layout = layoutNamed("close");
    const Camera camera;
    Exposure e{0.7, 0.7, 1.0, 1.0, 6};
    const auto even = calibratePhoto(photograph(drawing, camera, e), allLayouts(), std::nullopt);
    REQUIRE(even);
    CHECK(even->sharpness.overWindow.empty());
    CHECK(even->cautions.empty());
    e.blurGrowth = 1.3;
    const auto soft = calibratePhoto(photograph(drawing, camera, e), allLayouts(), std::nullopt);
    REQUIRE(soft);
    const auto& over = soft->sharpness.overWindow;
    REQUIRE(over.size() == 5);
    double widest = 0.0;
    for (const EdgeWidths& place : over) {
        const double u = camera.mapping().photoFromCard(place.at).u;
        const double grown = 1.3 * u / (camera.size.width - 1);
        const double truth = 2.5631 * std::sqrt(0.49 + grown * grown + 1.0 / 12.0);
        INFO("at " << place.at.x << ", " << place.at.y);
        // The width is not a straight line over the card but the root of a sum: up to 12 % off a
        // line.
        CHECK(place.alongX.value() == Approx(truth).epsilon(0.15));
        CHECK(place.alongY.value() == Approx(truth).epsilon(0.15));
        widest = std::max(widest, truth);
    }
    const double floor = seenFromOf(soft->sharpness, soft->trueScale()).value();
    CHECK(floor * soft->trueScale().value() == Approx(1.5 * widest).epsilon(0.15));
    const auto said =
        std::find_if(soft->cautions.begin(), soft->cautions.end(), [](const std::string& caution) {
            return caution.find("right side is clearly softer") != std::string::npos;
        });
    for (const std::string& caution : soft->cautions)
        UNSCOPED_INFO(caution);
    REQUIRE(said != soft->cautions.end());
    CHECK(said->find("parallel") != std::string::npos);
}

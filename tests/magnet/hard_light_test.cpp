// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/drawn_magnet.h"
#include "magnet/measure_magnet.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace swarfbook;

// Outside truth: what tests/magnet/drawn_magnet.cpp drew. Tolerances as in measure_magnet_test.cpp:
// covered share 0.10, mean overhang 0.5 mm; outlines of a magnet whose size was said 0.5 mm.

namespace {

drawn::Magnet furred(MagnetShape shape) {
    drawn::Magnet magnet;
    magnet.shape = shape;
    magnet.width = 34.0;
    magnet.height = shape == MagnetShape::block ? 18.0 : 34.0;
    magnet.hole = shape == MagnetShape::ring ? 14.0 : 0.0;
    return magnet;
}

void checkMeasured(const drawn::Magnet& magnet, const KnownMagnet& known = {}) {
    const drawn::Scene scene = drawn::draw(magnet, {}, 61);
    const MagnetSearch search =
        measureMagnet(scene.photo, cropWindow(scene.photo, Millimetres(0.25)), known);
    REQUIRE(std::holds_alternative<MagnetReading>(search));
    const MagnetFinding& found = std::get<MagnetReading>(search).finding;
    CHECK(found.shape == magnet.shape);
    CHECK(found.size.at(0).value() ==
          Approx(magnet.width).margin(known.size ? 0.5 : 0.03 * magnet.width + 0.6));
    CHECK(found.coveredShare.value.value() == Approx(scene.coveredShare).margin(0.10));
    CHECK(found.overhangMean.value() == Approx(scene.overhangMean).margin(0.5));
    CHECK(std::abs(found.overhangMean.value() - scene.overhangMean) <
          2.5 * found.overhangUncertainty.value().value());
}

} // namespace

// The sun is half a degree wide: at 5.5 mm its shadow's edge is 0.05 mm wide.
TEST_CASE("a furred magnet in hard sun is told from its own shadow beside it") {
    drawn::Magnet magnet =
        furred(GENERATE(MagnetShape::ring, MagnetShape::disc, MagnetShape::block));
    magnet.shadow = {6.0, 4.0};
    magnet.umbra = 0.15;
    magnet.penumbra = 0.05;
    checkMeasured(magnet);
}

TEST_CASE("a magnet that overlaps the window's edge a little is measured all the same") {
    drawn::Magnet magnet = furred(GENERATE(MagnetShape::ring, MagnetShape::block));
    const double over = GENERATE(0.5, 1.0); // mm of the magnet beyond the window's left edge
    magnet.centre.x = 20.0 + magnet.width / 2.0 - over;
    checkMeasured(magnet);
}

TEST_CASE("a magnet furred out of shape is measured by the size that was said") {
    const MagnetShape shape = GENERATE(MagnetShape::ring, MagnetShape::disc);
    drawn::Magnet magnet = furred(shape);
    magnet.cover = 0.95;
    magnet.strand = 2.5;
    magnet.lopsided = 0.7;
    checkMeasured(magnet, {shape, Millimetres(magnet.width)});
}

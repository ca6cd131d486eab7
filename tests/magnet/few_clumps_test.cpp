// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/drawn_magnet.h"
#include "magnet/measure_magnet.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

// Outside truth: what was drawn. Before a clean magnet's outline was sought between its clumps, a
// ring of 34 mm with fuzz on a twentieth read 97 % of a ring of 4 mm.
TEST_CASE("a few clumps of fuzz are not taken for the whole magnet") {
    drawn::Magnet magnet;
    magnet.shape = GENERATE(MagnetShape::ring, MagnetShape::disc, MagnetShape::block);
    magnet.width = 34.0;
    magnet.height = magnet.shape == MagnetShape::block ? 18.0 : 34.0;
    magnet.hole = magnet.shape == MagnetShape::ring ? 14.0 : 0.0;
    magnet.cover = GENERATE(0.05, 0.15);
    magnet.faceLight = magnet.cover > 0.1 ? 0.6 : 0.15; // nickel and ferrite
    drawn::Camera camera;
    camera.size = {2000, 1500};
    const auto scene = drawn::draw(magnet, camera, 61);
    const MagnetSearch search =
        measureMagnet(scene.photo, cropWindow(scene.photo, Millimetres(0.25)), {});
    REQUIRE(std::holds_alternative<MagnetReading>(search));
    const MagnetFinding& finding = std::get<MagnetReading>(search).finding;
    CHECK(finding.shape == magnet.shape);
    CHECK(finding.size.at(0).value() == Approx(34.0).margin(0.03 * 34.0 + 0.6));
    CHECK(finding.coveredShare.value.value() == Approx(scene.coveredShare).margin(0.10));
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/drawn_magnet.h"
#include "magnet/height_from_size.h"
#include "magnet/measure_magnet.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace swarfbook;

namespace {

MagnetReading foundKnowing(const drawn::Scene& scene, const KnownMagnet& known = {}) {
    MagnetSearch search =
        measureMagnet(scene.photo, cropWindow(scene.photo, Millimetres(0.25)), known);
    REQUIRE(std::holds_alternative<MagnetReading>(search));
    return std::get<MagnetReading>(std::move(search));
}

double heightOf(const MagnetReading& reading) {
    return reading.finding.height->value.value.value();
}

} // namespace

// Source: similar triangles by hand. 30 mm, 6 mm up under a camera 100 mm up, appear
// 30 * 100 / 94 = 31.915 mm wide; a typed size known to 0.25 mm tells the height to 0.25 * 94 /
// 31.915 = 0.736 mm, and Bayes's rule with 5.5 +- 1.5 mm before gives 5.90 +- 0.66 mm.
TEST_CASE("the size of a magnet gives the height at which it appears as wide as it does") {
    const CameraPlace camera{{50.0, 50.0}, 100.0};
    const auto known = heightFromSize(camera, {31.915, 0.01}, 30.0, {5.5, 1.5});
    REQUIRE(known);
    CHECK(known->height.value == Approx(5.90).margin(0.02));
    CHECK(known->height.uncertainty == Approx(0.66).margin(0.02));
    CHECK(known->rim.size == Approx(30.0 * 100.0 / (100.0 - 5.90)).margin(0.01));

    // A rim under fuzz, seen as 34 mm to 2.02 mm, tells the height to 5.9 mm only: 5.87 mm. The
    // size tells the rim: 30 * 100 / 94.13 = 31.87 mm.
    const auto furred = heightFromSize(camera, {34.0, 2.0}, 30.0, {5.5, 1.5});
    REQUIRE(furred);
    CHECK(furred->height.value == Approx(5.87).margin(0.05));
    CHECK(furred->rim.size == Approx(31.87).margin(0.03));
}

TEST_CASE("a size that the magnet cannot have gives no height") {
    const CameraPlace camera{{50.0, 50.0}, 100.0};
    CHECK_FALSE(heightFromSize(camera, {40.0, 0.3}, 30.0, {5.5, 1.5}));
    CHECK_FALSE(heightFromSize(camera, {27.0, 0.3}, 30.0, {5.5, 1.5}));
}

// Outside truth: what was drawn through a pinhole camera. 2.5 standard uncertainties.
TEST_CASE("drawn magnets higher and lower than usual are measured by their size") {
    drawn::Magnet magnet;
    magnet.faceHeight = GENERATE(3.0, 8.0);
    magnet.cover = GENERATE(0.2, 0.85);
    magnet.strand = 1.0 + magnet.cover;
    const auto scene = drawn::draw(magnet, {}, 41);
    const MagnetReading guessed = foundKnowing(scene);
    const MagnetReading reading =
        foundKnowing(scene, {MagnetShape::disc, Millimetres(magnet.width)});
    CHECK(reading.cautions.empty());
    CHECK(guessed.finding.height->from == HeightFrom::usual);
    CHECK(reading.finding.height->from == HeightFrom::size);
    const double uncertainty = reading.finding.height->value.standardUncertainty.value();
    CHECK(uncertainty < 1.5);
    CHECK(std::abs(heightOf(reading) - magnet.faceHeight) < 2.5 * uncertainty);
    CHECK(std::abs(heightOf(reading) - magnet.faceHeight) <
          std::abs(heightOf(guessed) - magnet.faceHeight));
    CHECK(reading.finding.size.at(0).value() == Approx(magnet.width).margin(0.3));
    CHECK(reading.finding.coveredShare.value.value() ==
          Approx(scene.coveredShare).margin(0.10)); // as in measure_magnet_test.cpp
    for (const MagnetFinding& magnet : {guessed.finding, reading.finding})
        CHECK(std::abs(magnet.overhangMean.value() - scene.overhangMean) <
              2.5 * magnet.overhangUncertainty.value().value());
}

TEST_CASE("what was said of a magnet and does not go with the photo is not used") {
    drawn::Magnet magnet;
    magnet.cover = 0.3;
    const auto scene = drawn::draw(magnet, {}, 42);
    const double plain = heightOf(foundKnowing(scene));
    const MagnetReading otherSize = foundKnowing(scene, {std::nullopt, Millimetres(45.0)});
    REQUIRE(otherSize.cautions.size() == 1);
    CHECK(otherSize.cautions[0].find("said to be 45 mm, and in the photo it is 30 mm") !=
          std::string::npos);
    CHECK(heightOf(otherSize) == plain);
    const MagnetReading otherForm = foundKnowing(scene, {MagnetShape::block, Millimetres(30.0)});
    REQUIRE(otherForm.cautions.size() == 1);
    CHECK(otherForm.cautions[0].find("said to be a block, and the photo shows a disc") !=
          std::string::npos);
    CHECK(heightOf(otherForm) == plain);
}

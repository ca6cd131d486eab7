// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/sharpness.h"
#include "rendered/rendered_card.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

/// 10 to 90 % width of a Gaussian edge: exact relation, 2 x 1.2815516 (normal quantile at 0.9)
/// times sigma. The pixel's own box adds the variance of a uniform distribution, 1/12.
double widthOf(double variance) {
    return 2.5631 * std::sqrt(variance + 1.0 / 12.0);
}

CardSighting sightingOf(const Drawing& drawing, const Camera& camera) {
    CardSighting seen;
    seen.layout = drawing.layout;
    seen.mapping = camera.mapping();
    seen.scale = seen.mapping.scaleAt(camera.aim);
    return seen;
}

} // namespace

TEST_CASE("A Gaussian edge has a width of 2.5631 sigma, in linear light", "[card]") {
    Drawing drawing;
    drawing.layout = layoutNamed("close");
    const Camera camera;
    for (const double sigma : {0.8, 1.2, 2.0, 3.0})
        for (const double noise : {0.5, 2.0}) {
            const Photo photo = photograph(drawing, camera, {sigma, sigma, noise, 1.0, 3});
            const auto sharpness = readSharpness(photo.bgr, sightingOf(drawing, camera));
            REQUIRE(sharpness);
            INFO("sigma " << sigma << ", noise " << noise);
            CHECK(sharpness->edgesRead == 16);
            // Below one pixel the quarter-pixel bins and the fitted line add to the width.
            const double tolerance = sigma < 1.0 ? 0.08 : 0.05;
            CHECK(sharpness->edgeWidth.value() ==
                  Approx(widthOf(sigma * sigma)).epsilon(tolerance));
            CHECK(sharpness->widestDirection.value() ==
                  Approx(sharpness->otherDirection.value()).epsilon(0.05));
        }
}

TEST_CASE("A shake in one direction shows as two widths", "[card]") {
    Drawing drawing;
    drawing.layout = layoutNamed("close");
    const Camera camera;
    const double shaken = 3.0;
    const double still = 0.8;
    const Photo photo = photograph(drawing, camera, {shaken, still, 1.0, 1.0, 4});
    const auto sharpness = readSharpness(photo.bgr, sightingOf(drawing, camera));
    REQUIRE(sharpness);
    // Across an edge turned by t the variance is cos^2 t of the one and sin^2 t of the other.
    const double s2 = std::pow(std::sin(drawing.layout.slantedTurnDeg * CV_PI / 180.0), 2);
    const double most = (1 - s2) * shaken * shaken + s2 * still * still;
    const double least = (1 - s2) * still * still + s2 * shaken * shaken;
    CHECK(sharpness->widestDirection.value() == Approx(widthOf(most)).epsilon(0.05));
    CHECK(sharpness->otherDirection.value() == Approx(widthOf(least)).epsilon(0.05));
}

TEST_CASE("Where no edge can be read there is no sharpness", "[card]") {
    Drawing drawing;
    drawing.layout = layoutNamed("close");
    const cv::Mat plain(1500, 2000, CV_8UC3, cv::Scalar(180, 180, 180));
    CHECK_FALSE(readSharpness(plain, sightingOf(drawing, Camera{})));
    CHECK_FALSE(edgeWidthOf(plain, Camera{}.mapping(), {40, 40}, {48, 40}));
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/sharpness.h"
#include "rendered/rendered_card.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

/// 10 to 90 % width of a Gaussian edge: exact relation, 2 x 1.2815516 (normal quantile at 0.9)
/// times sigma. The pixel's own box adds the variance of a uniform distribution, 1/12.
double widthOf(double variance) {
    return 2.5631 * std::sqrt(variance + 1.0 / 12.0);
}

/// 10 to 90 % width of a Gaussian blur as drawn, by brute force: whole pixels (boxes) are blurred
/// by a Gaussian taken at whole pixels, so that the line spread is a staircase, seen at 5 degrees
/// and averaged over the quarter-pixel bins of ISO 12233. At a sigma of 0.8 px that is 6 % wider
/// than the smooth Gaussian's.
double widthOfDrawn(double sigma, double turnDegrees) {
    const double c = std::cos(turnDegrees * CV_PI / 180.0);
    const double s = std::sin(turnDegrees * CV_PI / 180.0);
    constexpr double cell = 0.01; // px
    constexpr int half = 3000, parts = 12;
    std::vector<double> spread(2 * half + 1, 0.0);
    const int reach = static_cast<int>(4.0 * sigma + 1.0);
    const auto part = [](int k) { return (k + 0.5) / parts - 0.5; };
    for (int j = -reach; j <= reach; ++j)
        for (int i = -reach; i <= reach; ++i)
            for (int k = 0; k < parts * parts * parts; ++k) {
                const double x = (i + part(k % parts)) * c + (j + part(k / parts % parts)) * s +
                                 0.25 * part(k / parts / parts);
                spread.at(static_cast<std::size_t>(std::lround(x / cell) + half)) +=
                    std::exp(-0.5 * (i * i + j * j) / (sigma * sigma));
            }
    double sum = 0.0;
    for (const double w : spread)
        sum += w;
    double reached = 0.0;
    int within = 0;
    for (const double w : spread) {
        reached += w / sum;
        within += reached > 0.1 && reached < 0.9 ? 1 : 0;
    }
    return within * cell;
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
    const View view(drawing, camera);
    for (const double sigma : {0.8, 1.2, 2.0, 3.0})
        for (const double noise : {0.5, 2.0}) {
            const Photo photo = view.exposed({sigma, sigma, noise, 1.0, 3});
            const auto sharpness = readSharpness(photo.bgr, sightingOf(drawing, camera));
            REQUIRE(sharpness);
            INFO("sigma " << sigma << ", noise " << noise);
            CHECK(sharpness->edgesRead == 16);
            CHECK(sharpness->edgeWidth.value() ==
                  Approx(widthOfDrawn(sigma, drawing.layout.slantedTurnDeg)).epsilon(0.015));
            CHECK(sharpness->edgeWidth.value() == Approx(widthOf(sigma * sigma)).epsilon(0.07));
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

// 10 to 90 % of an even motion's straight ramp is 0.8 of its length: closed form.
TEST_CASE("An even motion has a width of 0.8 of its length and its direction is found", "[card]") {
    Drawing drawing;
    drawing.layout = layoutNamed("close");
    for (const double roll : {0.0, 25.0}) {
        Camera camera;
        camera.roll = roll;
        const View view(drawing, camera);
        for (const double turn : {0.0, 30.0, 45.0, 90.0, 140.0}) {
            Exposure shaken{0.5, 0.5, 1.0, 1.0, 5};
            shaken.motion = 10.0;
            shaken.motionTurn = turn;
            const Photo photo = view.exposed(shaken);
            const auto s = readSharpness(photo.bgr, sightingOf(drawing, camera));
            REQUIRE(s);
            INFO("turn " << turn << ", roll " << roll << ": direction " << s->motion.value()
                         << ", smear " << s->smear.value() << ", widths "
                         << s->widestDirection.value() << " and " << s->otherDirection.value());
            CHECK(s->cause == BlurCause::motion);
            const double off = std::abs(s->motion.value() - turn);
            CHECK(std::min(off, 180.0 - off) < 8.0);
            CHECK(s->smear.value() == Approx(10.0).epsilon(0.12));
            if (roll == 0.0 && (turn == 0.0 || turn == 90.0)) {
                // A ramp of length L cos 5 degrees, with the still blur's and pixel's variance.
                CHECK(s->widestDirection.value() == Approx(0.8 * 10.0).epsilon(0.05));
            }
        }
    }
}

TEST_CASE("A missed focus, a shake and both together are distinguished", "[card]") {
    Drawing drawing;
    drawing.layout = layoutNamed("close");
    const Camera camera;
    const View view(drawing, camera);
    const auto causeOf = [&](const Exposure& e) {
        const auto s = readSharpness(view.exposed(e).bgr, sightingOf(drawing, camera));
        REQUIRE(s);
        return s->cause;
    };
    CHECK(causeOf({0.7, 0.7, 1.0, 1.0, 2}) == BlurCause::none);
    CHECK(causeOf({2.5, 2.5, 1.0, 1.0, 2}) == BlurCause::focus);
    CHECK(causeOf({4.0, 3.6, 1.0, 1.0, 2}) == BlurCause::focus);
    Exposure both{1.8, 1.8, 1.0, 1.0, 2};
    both.motion = 18.0;
    both.motionTurn = 60.0;
    CHECK(causeOf(both) == BlurCause::both);
}

TEST_CASE("If the sharpness varies over the card, its worst place is found", "[card]") {
    Drawing drawing;
    drawing.layout = layoutNamed("close");
    const Camera camera;
    const View view(drawing, camera);
    Exposure e{0.7, 0.7, 1.0, 1.0, 6};
    const auto even = readSharpness(view.exposed(e).bgr, sightingOf(drawing, camera));
    REQUIRE(even);
    CHECK_FALSE(even->worst);
    CHECK(even->places.size() == 4);
    e.blurGrowth = 2.2;
    const auto leaning = readSharpness(view.exposed(e).bgr, sightingOf(drawing, camera));
    REQUIRE(leaning);
    REQUIRE(leaning->worst);
    CHECK(leaning->worst->at.x == 95.0);
    // The right squares stand at 84 % of the picture's width: band 13 of 0 to 15.
    const double sigma = 2.2 * 13.0 / 15.0;
    CHECK(leaning->worst->width.value() == Approx(widthOf(sigma * sigma + 0.49)).epsilon(0.1));
}

TEST_CASE("If no edge can be read there is no sharpness", "[card]") {
    Drawing drawing;
    drawing.layout = layoutNamed("close");
    const cv::Mat plain(1500, 2000, CV_8UC3, cv::Scalar(180, 180, 180));
    CHECK_FALSE(readSharpness(plain, sightingOf(drawing, Camera{})));
    CHECK_FALSE(edgeWidthOf(plain, Camera{}.mapping(), {40, 40}, {48, 40}));
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/mask_outline.h"
#include "particles/shape.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>

#include <cmath>
#include <numbers>
#include <random>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::WithinAbs;
using std::numbers::pi;

namespace {

cv::Mat1b disc(double radius, cv::Point2d offset = {}) {
    const int half = static_cast<int>(std::ceil(radius)) + 2;
    const cv::Point2d centre = cv::Point2d(half, half) + offset;
    return rasterised({2 * half + 1, 2 * half + 1}, [&](double x, double y) {
        return std::pow(x - centre.x, 2) + std::pow(y - centre.y, 2) <= radius * radius;
    });
}

/// Outer border through the pixel centres, steps of 1 and sqrt(2).
std::vector<cv::Point2d> centreOutline(const cv::Mat1b& mask) {
    std::vector<std::vector<cv::Point>> contours;
    cv::findContours(mask.clone(), contours, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
    REQUIRE(contours.size() == 1);
    return {contours.front().begin(), contours.front().end()};
}

/// All corners of the border's pixels; only their hull matters.
std::vector<cv::Point2d> cornerPoints(const cv::Mat1b& mask) {
    std::vector<cv::Point2d> corners;
    for (const cv::Point2d& p : centreOutline(mask))
        for (const cv::Point2d& d : {cv::Point2d(-0.5, -0.5), cv::Point2d(0.5, -0.5),
                                     cv::Point2d(0.5, 0.5), cv::Point2d(-0.5, 0.5)})
            corners.push_back(p + d);
    return corners;
}

} // namespace

// Source: Gauss circle problem (lattice points in a disc), published sequence. The half-level
// outline of a piece without holes cuts 1/8 pixel from every corner turned outward and adds as much
// at every one turned inward, of which there are four fewer: pixels - 1/2 (closed form).
TEST_CASE("the half-level outline of a digital disc encloses its pixels less one half") {
    const int pixels[] = {1, 5, 13, 29, 49, 81, 113, 149, 197, 253, 317, 377, 441};
    for (int radius = 1; radius <= 12; ++radius) {
        const cv::Mat1b mask = disc(radius);
        CHECK(cv::countNonZero(mask) == pixels[radius]);
        CHECK_THAT(measureShape(maskOutline(mask)).area, WithinAbs(pixels[radius] - 0.5, 1e-9));
    }
    CHECK(cv::countNonZero(disc(50)) == 7845);
    CHECK_THAT(measureShape(maskOutline(disc(100))).area, WithinAbs(31416.5, 1e-6));
}

// Source: 21.213203 and 22.627417 by arithmetic; 21.931712 = sqrt(16^2 + 15^2) is the value in
// scikit-image's own tests for the half-level contour of this block.
TEST_CASE("a 16 x 16 block has the three known maximum Feret diameters") {
    const cv::Mat1b block = rasterised(
        {20, 20}, [](double x, double y) { return x >= 2 && x <= 17 && y >= 2 && y <= 17; });
    CHECK_THAT(measureShape(centreOutline(block)).maxFeret, WithinAbs(21.213203, 1e-6));
    CHECK_THAT(measureShape(cornerPoints(block)).maxFeret, WithinAbs(22.627417, 1e-6));
    CHECK_THAT(measureShape(maskOutline(block)).maxFeret, WithinAbs(21.931712, 1e-6));
}

// Source: 400 discs at random sub-pixel places, computed with numpy for both conventions; the
// tolerance is three standard errors of such a mean with the spread seen (0.3 px).
TEST_CASE("digital discs have the known mean bias of the maximum Feret diameter") {
    struct Row {
        double radius, centres, corners;
    };
    const Row rows[] = {{2, -0.513, 0.859},
                        {3, -0.352, 1.013},
                        {5, -0.310, 1.034},
                        {10, -0.173, 1.191},
                        {20, -0.110, 1.239}};
    std::mt19937 random(0);
    std::uniform_real_distribution<double> offset(-0.5, 0.5);
    for (const Row& row : rows) {
        double centres = 0.0, corners = 0.0, halfLevel = 0.0;
        for (int i = 0; i < 400; ++i) {
            const double dx = offset(random), dy = offset(random);
            const cv::Mat1b mask = disc(row.radius, {dx, dy});
            centres += measureShape(centreOutline(mask)).maxFeret - 2 * row.radius;
            corners += measureShape(cornerPoints(mask)).maxFeret - 2 * row.radius;
            halfLevel += measureShape(maskOutline(mask)).maxFeret - 2 * row.radius;
        }
        CHECK_THAT(centres / 400, WithinAbs(row.centres, 0.05));
        CHECK_THAT(corners / 400, WithinAbs(row.corners, 0.05));
        CHECK(halfLevel / 400 > centres / 400);
        CHECK(halfLevel / 400 < corners / 400);
    }
}

// Source: computed with numpy for turns of 0 to 45 degrees: centres 61.98 to 62.39, corners 63.25
// to 63.71 (true 63.246).
TEST_CASE("turned digital rectangles of 60 x 20 keep their Feret diameters in the known bands") {
    for (int degrees = 1; degrees < 45; ++degrees) {
        const double c = std::cos(degrees * pi / 180), s = std::sin(degrees * pi / 180);
        const cv::Mat1b mask = rasterised({91, 91}, [&](double x, double y) {
            const double along = (x - 45) * c + (y - 45) * s, across = (y - 45) * c - (x - 45) * s;
            return std::abs(along) <= 30 && std::abs(across) <= 10;
        });
        const double centres = measureShape(centreOutline(mask)).maxFeret;
        CHECK(centres > 61.5);
        CHECK(centres < 63.3);
        const double corners = measureShape(cornerPoints(mask)).maxFeret;
        CHECK(corners > 62.9);
        CHECK(corners < 64.3);
    }
}

// Source: ratio of the chain length (steps 1 and sqrt 2) to 2 pi R, mean over discs at random
// sub-pixel places, computed with numpy. It does not go to 1: the reason why no descriptor here
// rests on a chain of pixels.
TEST_CASE("the chain of pixel centres round a disc has its known wrong length") {
    const std::pair<double, double> rows[] = {
        {5, 0.963}, {10, 1.010}, {20, 1.032}, {50, 1.046}, {100, 1.050}};
    std::mt19937 random(0);
    std::uniform_real_distribution<double> offset(-0.5, 0.5);
    for (const auto& [radius, ratio] : rows) {
        double length = 0.0;
        for (int i = 0; i < 40; ++i) {
            const double dx = offset(random), dy = offset(random);
            length += measureShape(centreOutline(disc(radius, {dx, dy}))).perimeter / 40;
        }
        CHECK_THAT(length / (2 * pi * radius), WithinAbs(ratio, 0.01));
    }
}

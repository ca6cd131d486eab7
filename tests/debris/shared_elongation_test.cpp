// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/shared_elongation.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <random>

using namespace swarfbook;

namespace {

constexpr double degree = std::numbers::pi / 180.0;

/// The outline of an ellipse of semi-axes a and b, its long axis turned by so many degrees.
std::vector<cv::Point2d> ellipse(double a, double b, double degrees) {
    std::vector<cv::Point2d> outline;
    const double turn = degrees * degree;
    for (int i = 0; i < 64; ++i) {
        const double t = 2 * std::numbers::pi * i / 64;
        const double x = a * std::cos(t), y = b * std::sin(t);
        outline.emplace_back(50 + x * std::cos(turn) - y * std::sin(turn),
                             70 + x * std::sin(turn) + y * std::cos(turn));
    }
    return outline;
}

double lengthOf(cv::Point2d v) {
    return std::hypot(v.x, v.y);
}

} // namespace

// Second moments of an ellipse's points: (a^2 - b^2) / (a^2 + b^2); closed form.
TEST_CASE("An outline's elongation has its axis and strength", "[debris]") {
    const cv::Point2d of = elongationOf(ellipse(12, 6, 30));
    CHECK(lengthOf(of) == Approx((144.0 - 36.0) / (144.0 + 36.0)).margin(1e-6));
    CHECK(std::atan2(of.y, of.x) == Approx(60.0 * degree).margin(1e-6));
    CHECK(lengthOf(elongationOf(ellipse(8, 8, 0))) == Approx(0.0).margin(1e-9));
    CHECK(lengthOf(elongationOf({})) == 0.0);
}

TEST_CASE("Outlines elongated in one direction share that direction", "[debris]") {
    const std::vector<cv::Point2d> all(60, elongationOf(ellipse(12, 8, 30)));
    const cv::Point2d shared = sharedElongation(all);
    CHECK(std::atan2(shared.y, shared.x) == Approx(60.0 * degree).margin(1e-6));
    CHECK(lengthOf(shared) == Approx(80.0 / 208.0).margin(0.07)); // less the share of chance
    CHECK(lengthOf(shared) < 80.0 / 208.0);
}

TEST_CASE("Outlines in random directions share none", "[debris]") {
    std::mt19937 random(3);
    std::uniform_real_distribution<double> any(0.0, 180.0);
    double most = 0.0;
    for (int photo = 0; photo < 20; ++photo) {
        std::vector<cv::Point2d> all;
        for (int i = 0; i < 40; ++i)
            all.push_back(elongationOf(ellipse(12, 6, any(random))));
        most = std::max(most, lengthOf(sharedElongation(all)));
    }
    CHECK(most < 0.15); // of 0.6 that each has
}

TEST_CASE("A single outline shares little elongation, no outlines share none", "[debris]") {
    CHECK(lengthOf(sharedElongation({})) == 0.0);
    CHECK(lengthOf(sharedElongation({elongationOf(ellipse(12, 9, 0))})) == 0.0);
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "trend/trend.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

namespace {
std::vector<TrendPoint> points(const std::vector<double>& x, const std::vector<double>& y) {
    std::vector<TrendPoint> result;
    for (std::size_t i = 0; i < x.size(); ++i)
        result.push_back({x[i], y[i]});
    return result;
}
} // namespace

TEST_CASE("Sen's own example of 1968 gives slope 4 and 93 % limits 26/7 and 35/8") {
    // Sen, J. Am. Stat. Assoc. 63 (1968); limits as exact fractions.
    const TheilSen line =
        theilSen(points({1, 2, 3, 4, 10, 12, 18}, {9, 15, 19, 20, 45, 55, 78}), 0.93);
    CHECK(line.slope == Approx(4.0));
    CHECK(line.slopeLow == Approx(26.0 / 7));
    CHECK(line.slopeHigh == Approx(35.0 / 8));
    CHECK(line.intercept == Approx(4.0)); // separate medians
}

TEST_CASE("the published fourteen values give slope 0.5667 with limits 0.325 and 0.8667") {
    std::vector<double> x;
    for (int i = 1; i <= 14; ++i)
        x.push_back(i);
    const TheilSen line = theilSen(points(
        x, {12.9, 14.8, 13.2, 15.7, 13.8, 15.6, 12.9, 11.0, 17.3, 15.9, 19.0, 18.3, 20.1, 21.7}));
    CHECK(line.slope == Approx(0.566667).margin(1e-6));
    CHECK(line.slopeLow == Approx(0.325).margin(1e-6));
    CHECK(line.slopeHigh == Approx(0.866667).margin(1e-6));
    CHECK(line.intercept == Approx(11.4).margin(1e-6));
}

TEST_CASE("tiny samples: 0, 1, 1 has slope 0.5 and intercept 0.5") {
    // SciPy's own test of theilslopes, method "separate".
    const TheilSen line = theilSen(points({0, 1, 2}, {0, 1, 1}));
    CHECK(line.slope == Approx(0.5));
    CHECK(line.intercept == Approx(0.5));
}

TEST_CASE("100, 50, 85, 75, 50 falls by 9.1667 a step") {
    CHECK(theilSen(points({1, 2, 3, 4, 5}, {100, 50, 85, 75, 50})).slope ==
          Approx(-9.166667).margin(1e-6));
}

TEST_CASE("points with the same x have no line") {
    CHECK_THROWS_AS(theilSen(points({1, 1}, {1, 2})), std::logic_error);
}

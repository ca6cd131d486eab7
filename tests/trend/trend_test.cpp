// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "trend/trend.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

TEST_CASE("a trend from three visits is refused with their number") {
    CHECK_THROWS_WITH(trendOf({{1, 1}, {2, 2}, {3, 3}}),
                      Catch::Contains("at least four visits") && Catch::Contains("3"));
}

TEST_CASE("a projection from two visits is refused") {
    CHECK_THROWS_AS(project({{1, 1}, {2, 2}}, 3), EvidenceRefused);
}

TEST_CASE("a projection further ahead than the visits reach back is refused") {
    const std::vector<TrendPoint> points{{10000, 1}, {20000, 2}, {30000, 3}};
    CHECK_NOTHROW(project(points, 45000));
    CHECK_THROWS_AS(project(points, 60000), EvidenceRefused);
}

TEST_CASE("points on a line project onto the line") {
    const Projection ahead = project({{0, 1}, {10, 3}, {20, 5}, {30, 7}}, 40);
    CHECK(ahead.value == Approx(9.0));
    CHECK(ahead.low == Approx(9.0));
    CHECK(ahead.high == Approx(9.0));
}

TEST_CASE("a projection's interval holds its value and never goes below zero") {
    const Projection ahead = project({{0, 5}, {10, 3}, {20, 4}, {30, 1}}, 50);
    CHECK(ahead.low >= 0.0);
    CHECK(ahead.low <= ahead.value);
    CHECK(ahead.high >= ahead.value);
}

TEST_CASE("four rising visits are not called a proof, five are") {
    // Exact two-sided chance: 2/24 for four, 2/120 for five (Gilbert 1987, table A18).
    const Trend four = trendOf({{1, 1}, {2, 2}, {3, 3}, {4, 4}});
    CHECK_FALSE(four.significant);
    CHECK_THAT(four.sentence, Catch::Contains("cannot prove it"));
    const Trend five = trendOf({{1, 1}, {2, 2}, {3, 3}, {4, 4}, {5, 5}});
    CHECK(five.significant);
    CHECK_THAT(five.sentence, Catch::Contains("Rising over 5 visits"));
}

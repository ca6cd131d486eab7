// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/poisson.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

// Source: Garwood's formula; the values 3.689 for a count of 0 and 4.80 to 18.39 for 10 are
// published (epitools pois.exact), the others computed from the chi-squared formula with scipy.
TEST_CASE("exact Poisson limits agree with the published table") {
    struct Row {
        long count;
        double lower, upper;
    };
    const Row rows[] = {{0, 0.0, 3.688879},        {1, 0.025318, 5.571643},
                        {2, 0.242209, 7.224688},   {5, 1.623486, 11.668332},
                        {10, 4.795389, 18.390356}, {20, 12.216520, 30.888378}};
    for (const Row& row : rows) {
        const auto [lower, upper] = poissonInterval95(row.count);
        CHECK(lower == Catch::Detail::Approx(row.lower).margin(1e-6));
        CHECK(upper == Catch::Detail::Approx(row.upper).margin(1e-6));
    }
    CHECK_THROWS_AS(poissonInterval95(-1), std::logic_error);
}

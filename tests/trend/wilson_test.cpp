// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "trend/rates.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

TEST_CASE("Wilson's interval agrees with Newcombe 1998") {
    // Newcombe, Statistics in Medicine 17 (1998), four decimals (from memory), and the same
    // recomputed with z = 1.959963985 to seven.
    struct {
        long successes, n;
        double low, high;
    } const rows[] = {{81, 263, 0.2552885, 0.3662096},
                      {15, 148, 0.0623864, 0.1604872},
                      {0, 20, 0.0, 0.1611252},
                      {1, 29, 0.0061132, 0.1717552}};
    for (const auto& row : rows) {
        const ShareInterval interval = wilsonInterval95(row.successes, row.n);
        CHECK(interval.low == Approx(row.low).margin(1e-7));
        CHECK(interval.high == Approx(row.high).margin(1e-7));
    }
}

TEST_CASE("none and all of n give limits that are exactly 0 and 1") {
    CHECK(wilsonInterval95(0, 100).low == 0.0);
    // none of n: the upper limit is z^2 / (n + z^2), z^2 = 3.841459 (chi-square table, 1 df, 95 %)
    CHECK(wilsonInterval95(0, 100).high == Approx(3.841459 / 103.841459).margin(1e-7));
    CHECK(wilsonInterval95(5, 5).high == 1.0);
    CHECK_THROWS_AS(wilsonInterval95(1, 0), std::logic_error);
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/share_interval.h"

#include <catch2/catch.hpp>

#include <stdexcept>

using namespace swarfbook;

// Source: Newcombe, Statistics in Medicine 17 (1998) 857, table I, method 3 (from memory).
TEST_CASE("the interval of a share is that of Newcombe's table", "[share]") {
    const struct {
        double hits, trials, low, high;
    } rows[] = {{81, 263, 0.2553, 0.3662},
                {15, 148, 0.0624, 0.1605},
                {0, 20, 0.0, 0.1611},
                {1, 29, 0.0061, 0.1718}};
    for (const auto& row : rows) {
        const auto [low, high] = shareInterval95(row.hits, row.trials);
        CHECK(low == Approx(row.low).margin(5e-5));
        CHECK(high == Approx(row.high).margin(5e-5));
    }
}

TEST_CASE("impossible shares have no interval", "[share]") {
    CHECK_THROWS_AS(shareInterval95(0, 0), std::logic_error);
    CHECK_THROWS_AS(shareInterval95(3, 2), std::logic_error);
    CHECK_THROWS_AS(shareInterval95(-1, 2), std::logic_error);
}

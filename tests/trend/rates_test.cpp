// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "trend/rates.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace swarfbook;

namespace {
struct Row {
    CountOver first, second;
    double pLess, pTwoSided;
    double ratio, low, high;
};
} // namespace

// Data: row 1 the example of R's poisson.test (breast cancer and fluoroscopy), rows 2 and 3 the
// examples of the R packages rateratio.test and exactci; results recomputed from the binomial and
// beta distributions. Row 3 is a trap: p below 0.05 while the interval holds 1.
TEST_CASE("two Poisson rates compare as the published examples do") {
    const Row rows[] = {
        {{11, 800}, {21, 3011}, 0.975932, 0.0796686, 1.971488, 0.858426, 4.277266},
        {{2, 17877}, {9, 16660}, 0.025053, 0.0330942, 0.207094, 0.021774, 1.000549},
        {{2, 17877}, {10, 20000}, 0.030278, 0.0421343, 0.223751, 0.023837, 1.049950},
        {{0, 100}, {3, 100}, 0.125, 0.25, 0.0, 0.0, 2.419952},
        {{5, 1}, {15, 1}, 0.020695, 0.0413895, 0.333333, 0.094776, 0.964814},
        {{10, 1}, {20, 1}, 0.049369, 0.0987371, 0.5, 0.209006, 1.119183},
    };
    for (const Row& row : rows) {
        const RateComparison c = compareRates(row.first, row.second);
        CHECK(c.pLess == Approx(row.pLess).margin(1e-6));
        CHECK(c.pTwoSided == Approx(row.pTwoSided).margin(1e-6));
        REQUIRE(c.ratio);
        CHECK(*c.ratio == Approx(row.ratio).margin(1e-6));
        CHECK(c.low == Approx(row.low).margin(1e-6));
        CHECK(c.high == Approx(row.high).margin(1e-6));
    }
}

TEST_CASE("the conditional test of 2 against 6 is 37/128") {
    // Binomial(8, 1/2): 2 (1 + 8 + 28) / 256 = 0.2890625, in closed form.
    CHECK(compareRates({2, 100}, {6, 100}).pTwoSided == Approx(0.2890625).epsilon(1e-12));
}

TEST_CASE("a count of zero on one side gives no ratio") {
    const RateComparison one = compareRates({3, 1}, {0, 1});
    CHECK_FALSE(one.ratio);
    CHECK(std::isinf(one.high));
    // closed form: the lower limit p of 3 in 3 is 0.025^(1/3); ratio p / (1 - p)
    const double p = std::cbrt(0.025);
    CHECK(one.low == Approx(p / (1 - p)).epsilon(1e-9));
    const RateComparison none = compareRates({0, 1}, {0, 2});
    CHECK_FALSE(none.ratio);
    CHECK(none.pTwoSided == 1.0);
}

TEST_CASE("swapping the two rates inverts the ratio and its limits") {
    const RateComparison a = compareRates({7, 3.5}, {19, 4.25});
    const RateComparison b = compareRates({19, 4.25}, {7, 3.5});
    CHECK(*a.ratio * *b.ratio == Approx(1.0));
    CHECK(a.low * b.high == Approx(1.0));
    CHECK(a.pTwoSided == Approx(b.pTwoSided));
}

TEST_CASE("an exposure of zero or a negative count is our error, not a rate") {
    CHECK_THROWS_AS(compareRates({1, 0}, {1, 1}), std::logic_error);
    CHECK_THROWS_AS(compareRates({-1, 1}, {1, 1}), std::logic_error);
}

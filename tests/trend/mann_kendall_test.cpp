// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "trend/trend.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>

using namespace swarfbook;

TEST_CASE("a published worked example of fourteen values is met") {
    // College course sheet "Mann-Kendall by hand" (Holy Cross, Montserrat): S = 54, Z = 2.9058,
    // one-sided p about 0.0018; variance and two-sided p recomputed.
    const MannKendall t = mannKendall(
        {12.9, 14.8, 13.2, 15.7, 13.8, 15.6, 12.9, 11.0, 17.3, 15.9, 19.0, 18.3, 20.1, 21.7});
    CHECK(t.s == 54);
    CHECK(t.variance == Approx(332.666667).margin(1e-6));
    CHECK(t.z == Approx(2.905837).margin(1e-6));
    CHECK(t.pTwoSided == Approx(0.003662724).margin(1e-8));
    CHECK_FALSE(t.exact);
}

TEST_CASE("the example of the Wisconsin Administrative Code is met") {
    const MannKendall t = mannKendall({100, 50, 85, 75, 50});
    CHECK(t.s == -5); // published
    CHECK(t.variance == Approx(15.666667).margin(1e-6));
}

TEST_CASE("tied values reduce the variance as published") {
    const MannKendall t = mannKendall({17, 14, 39, 16, 39, 14, 14, 39, 17, 39});
    CHECK(t.s == 7);
    CHECK(t.variance == Approx(111.666667).margin(1e-6));
    CHECK(t.z == Approx(0.567792).margin(1e-6));
}

TEST_CASE("small samples have the exact chances of Gilbert 1987, table A18") {
    // Counts of permutations over n!: exact fractions.
    CHECK(mannKendall({1, 2, 3}).pOneSided == Approx(1.0 / 6).epsilon(1e-12));
    CHECK(mannKendall({1, 2, 3, 4}).pOneSided == Approx(1.0 / 24).epsilon(1e-12));
    CHECK(mannKendall({1, 2, 4, 3}).pOneSided == Approx(4.0 / 24).epsilon(1e-12));
    CHECK(mannKendall({1, 2, 3, 5, 4}).pOneSided == Approx(5.0 / 120).epsilon(1e-12));
    const MannKendall s16 = mannKendall({7, 1, 2, 3, 4, 5, 6, 8}); // S = 28 - 12 = 16
    CHECK(s16.s == 16);
    CHECK(s16.pOneSided == Approx(1230.0 / 40320).epsilon(1e-12));
    const MannKendall s29 = mannKendall({2, 1, 10, 3, 4, 5, 6, 7, 8, 9}); // 8 falling pairs of 45
    CHECK(s29.s == 29);
    CHECK(s29.pOneSided == Approx(16599.0 / 3628800).epsilon(1e-12));
    CHECK(mannKendall({10, 9, 8, 7, 6, 5, 4, 3, 2, 1}).pOneSided ==
          Approx(1.0 / 3628800).epsilon(1e-12));
}

TEST_CASE("three visits can never be significant, four never two-sided") {
    CHECK(mannKendall({1, 2, 3}).pOneSided > 0.16);
    CHECK(mannKendall({1, 2, 3, 4}).pTwoSided == Approx(2.0 / 24).epsilon(1e-12));
}

TEST_CASE("with ties the exact chances agree with a list of all arrangements") {
    const std::vector<double> y{1, 3, 2, 3, 3, 1};
    const MannKendall t = mannKendall(y);
    std::vector<double> arranged = y;
    std::sort(arranged.begin(), arranged.end());
    long all = 0, atLeast = 0;
    do {
        long s = 0;
        for (std::size_t i = 0; i < arranged.size(); ++i)
            for (std::size_t j = i + 1; j < arranged.size(); ++j)
                s += (arranged[j] > arranged[i]) - (arranged[j] < arranged[i]);
        ++all;
        atLeast += s >= std::abs(t.s);
    } while (std::next_permutation(arranged.begin(), arranged.end()));
    CHECK(t.exact);
    CHECK(t.pOneSided == Approx(static_cast<double>(atLeast) / static_cast<double>(all)));
}

TEST_CASE("values all alike show no trend") {
    const MannKendall t = mannKendall({2, 2, 2, 2});
    CHECK(t.s == 0);
    CHECK(t.pTwoSided == 1.0);
}

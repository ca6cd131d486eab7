// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/copper.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

TEST_CASE("copper follows the International Annealed Copper Standard") {
    // factors R(t)/R20 for alpha20 = 0.00393 /K, computed from the standard's coefficient
    struct {
        double celsius, factor;
    } const rows[] = {{-20, 0.84280}, {0, 0.92140},  {25, 1.01965}, {40, 1.07860},
                      {60, 1.15720},  {80, 1.23580}, {100, 1.31440}};
    for (const auto& row : rows)
        CHECK(resistanceAt(Ohms(1.0), Celsius(row.celsius)).value() ==
              Approx(row.factor).margin(1e-9));
}

TEST_CASE("a coil of 12.6 ohm at 80 C has 10.195825 ohm at 20 C") {
    CHECK(resistanceAt20(Ohms(12.6), Celsius(80)).value() == Approx(10.195825).epsilon(1e-6));
    CHECK(resistanceAt(Ohms(10.0), Celsius(80)).value() == Approx(12.358).epsilon(1e-9));
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/typed.h"

namespace swarfbook {

/// Rise of copper's resistance per kelvin, referred to 20 C (International Annealed Copper
/// Standard).
inline constexpr double copperPerKelvin = 0.00393;

/// What a copper coil measured at `at` would read at 20 C: R / (1 + 0.00393 (T - 20)).
/// Checked: tests/bench/copper_test.cpp (handbook factors).
constexpr Ohms resistanceAt20(Ohms measured, Celsius at) {
    return measured / (1.0 + copperPerKelvin * (at.value() - 20.0));
}

/// What a coil of `at20` reads at `at`.
constexpr Ohms resistanceAt(Ohms at20, Celsius at) {
    return at20 * (1.0 + copperPerKelvin * (at.value() - 20.0));
}

} // namespace swarfbook

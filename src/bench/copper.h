// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/typed.h"

namespace swarfbook {

/// Rise of copper's resistance per kelvin, referred to 20 C (International Annealed Copper
/// Standard).
inline constexpr double copperPerKelvin = 0.00393;

/// Resistance at 20 C of a copper coil measured at `at`: R / (1 + 0.00393 (T - 20)).
/// Checked: tests/bench/copper_test.cpp (handbook factors).
constexpr Ohms resistanceAt20(Ohms measured, Celsius at) {
    return measured / (1.0 + copperPerKelvin * (at.value() - 20.0));
}

/// Resistance at `at` of a coil that has `at20` at 20 C.
constexpr Ohms resistanceAt(Ohms at20, Celsius at) {
    return at20 * (1.0 + copperPerKelvin * (at.value() - 20.0));
}

} // namespace swarfbook

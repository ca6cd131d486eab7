// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/after_repair.h"

#include <optional>
#include <string>

namespace swarfbook {

/// Growth of oil per kelvin; rule of thumb for mineral oils, 0.00070 / C (published tables of
/// cubic expansion; lubricating oils by API MPMS 11.1 lie between 0.00072 and 0.00074).
inline constexpr double oilPerKelvin = 0.0007;

/// What `volume` at `from` takes up at `to`: V (1 + 0.0007 (to - from)).
/// Checked: tests/bench/oil_level_test.cpp (handbook figures).
constexpr Litres oilAt(Litres volume, Celsius from, Celsius to) {
    return volume * (1.0 + oilPerKelvin * (to - from).value());
}

enum class LevelTime { valid, tooCold, tooHot, windowUnknown, temperatureUnknown };

/// Whether a level read at this temperature says anything.
LevelTime levelTime(const LevelCheck& check);

/// How much a level set right now would be off once the fluid is at the near edge of the window:
/// positive = too much fluid. Nothing where the level is valid, or temperature, window or the
/// unit's volume is not known.
std::optional<Litres> levelError(const LevelCheck& check);

/// "wait and recheck: ..." with the error it would mean, or that it was read in the window; ""
/// where neither temperature nor window was told.
std::string levelSentence(const LevelCheck& check);

} // namespace swarfbook

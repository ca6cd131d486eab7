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

/// The volume at `to` of fluid that takes up `volume` at `from`: V (1 + 0.0007 (to - from)).
/// Checked: tests/bench/oil_level_test.cpp (handbook figures).
constexpr Litres oilAt(Litres volume, Celsius from, Celsius to) {
    return volume * (1.0 + oilPerKelvin * (to - from).value());
}

enum class LevelTime { valid, tooCold, tooHot, windowUnknown, temperatureUnknown };

/// Whether a level read at this temperature is valid.
LevelTime levelTime(const LevelCheck& check);

/// Error of a level that is set now, once the fluid is at the near edge of the window; positive =
/// too much fluid. Nothing if the level is valid, or if temperature, window or the unit's volume is
/// not known.
std::optional<Litres> levelError(const LevelCheck& check);

/// "wait and recheck: ..." with that error, or that it was read in the window; "" if neither
/// temperature nor window was entered.
std::string levelSentence(const LevelCheck& check);

} // namespace swarfbook

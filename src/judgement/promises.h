// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/facts.h"
#include "judgement/suggestion.h"

#include <string>
#include <vector>

/// What the answers of a test lead to, kept in one place for each kind of test.
/// Checked: tests/judgement/promises_test.cpp (every answer is typed in and the answer compared).
namespace swarfbook::promises {

/// The coil of this solenoid read at its own pins: open or right; also hot if it fails hot.
std::vector<Promise> coilAtItsPins(const Facts& facts, const std::string& solenoid, bool hot);
/// The solenoid tested again once flushed and demagnetised: still worse, or as good.
std::vector<Promise> flushed(const Facts& facts, const std::string& solenoid);
/// The coil measured again at one temperature: still apart.
std::vector<Promise> measuredAgain(const Facts& facts, const std::string& solenoid);
/// Read again at its own pins, after the case connector said otherwise: bad again.
std::vector<Promise> pinsReadAgain(const Facts& facts, const std::string& solenoid);
/// Exchanged with an identical one: the fault moves, or stays.
std::vector<Promise> exchanged(const Facts& facts, const std::string& solenoid);
/// The clutches of the gears that slip put to air: one leaks.
std::vector<Promise> airChecked(const Facts& facts);
/// The fluid looked at for water: milky.
std::vector<Promise> fluidLookedAt();
/// The part from which plastic broke off: one inside, or one that is reached with the pan off.
std::vector<Promise> plasticTraced(const DebrisFacts& debris);
/// The end play measured: too much.
std::vector<Promise> endPlayMeasured();

} // namespace swarfbook::promises

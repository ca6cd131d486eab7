// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/solenoid_siblings.h"

/// What single readings hold against a solenoid; parts of judgeSolenoids().
/// Checked: tests/bench/solenoids_test.cpp.
namespace swarfbook {

/// The coil's resistance brought to 20 C, read cold and read hot; nothing without its temperature.
std::optional<Ohms> coldAt20(const SolenoidReadings& s);
std::optional<Ohms> hotAt20(const SolenoidReadings& s);

/// -1 below its band, +1 above, 0 within or no band known.
int sideOfBand(const SolenoidReadings& s, Ohms at20);

/// Why the coil itself is at fault; "" when nothing says so.
std::string coilFault(const SolenoidReadings& s, const SolenoidLimits& limits, bool bandsBelieved);

/// What the tests of movement and tightness hold against it; "" when nothing.
/// @param siblings  all of its kind, itself among them.
std::string responseFault(const SolenoidReadings& s, const SiblingLeaks& siblings,
                          const SolenoidLimits& limits);

/// Whether the coil was read, rather than left out.
bool readsCoil(const SolenoidReadings& s);

/// Whether it leaked before, and at the same test seals now: no sibling is needed to see the
/// change.
bool sealsSince(const SolenoidReadings& before, const SolenoidReadings& now);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/solenoid_siblings.h"

/// Faults that single readings show in a solenoid. Parts of judgeSolenoids().
/// Checked: tests/bench/solenoids_test.cpp.
namespace swarfbook {

/// The coil's resistance brought to 20 C, read cold and read hot; nothing without its temperature.
std::optional<Ohms> coldAt20(const SolenoidReadings& s);
std::optional<Ohms> hotAt20(const SolenoidReadings& s);

/// -1 below its band, +1 above it, 0 within it or if no band is known.
int sideOfBand(const SolenoidReadings& s, Ohms at20);

/// Why the coil itself is at fault; "" if nothing shows that.
std::string coilFault(const SolenoidReadings& s, const SolenoidLimits& limits, bool bandsBelieved);

/// The fault that the tests of movement and tightness show; "" if none.
/// @param siblings  all of its kind, itself among them.
std::string responseFault(const SolenoidReadings& s, const SiblingLeaks& siblings,
                          const SolenoidLimits& limits);

/// Whether the coil was read at all.
bool readsCoil(const SolenoidReadings& s);

/// Whether it leaked before and seals now in the same test; this needs no sibling.
bool sealsSince(const SolenoidReadings& before, const SolenoidReadings& now);

} // namespace swarfbook

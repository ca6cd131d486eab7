// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/observation.h"

#include <vector>

namespace swarfbook {

/// How far a unit is taken apart, judged by the observations of its visit.
enum class StateOfWork {
    panOn,     ///< as it came in
    panOff,    ///< the pan is off, the fluid is drained, nothing can be driven
    panOnAgain ///< refitted and filled after a repair
};

/// @param recorded  of a visit, oldest first
/// @param debrisSeen  debris was looked at, by eye or in a photo
StateOfWork stateOfWork(const std::vector<Observation>& recorded, bool debrisSeen);

/// Whether this can be observed, or observed once more, in that state: debris, valve body and tests
/// by hand only with the pan off; the level at arrival only before that; a drive, a noise, a
/// pressure and the cooler's flow not while the pan is off.
/// Checked: tests/bench/state_of_work_test.cpp.
bool canBeObserved(const Observation& observation, StateOfWork state);

/// Whether the valve body comes off for this: bores and air checks.
bool needsValveBodyOff(const Observation& observation);

} // namespace swarfbook

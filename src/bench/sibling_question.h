// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/observation.h"

#include <vector>

namespace swarfbook {

/// Questions a resistance that lies far from those of the other coils read so far: beyond three
/// times or under a third of the median of its own kind, or eight times where no kind was said
/// (a slipped digit or the wrong range of the meter; common practice, no source).
/// Throws UsageError saying what to check and how to confirm.
/// Checked: tests/cli/observe_test.cpp.
void questionAgainstSiblings(const SolenoidReadings& reading,
                             const std::vector<Observation>& others);

} // namespace swarfbook

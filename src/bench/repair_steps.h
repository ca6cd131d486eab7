// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/driven.h"
#include "bench/observation.h"

#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// What was done about it, and whether it helped.
struct RepairStep {
    std::vector<std::string> rungs; ///< outcomes' names, the dearest counts; empty: as suggested
    std::vector<std::string> parts; ///< "solenoid A"; empty: those that were suggested
    std::optional<Held> held;       ///< at the next contact
    std::vector<std::string> still; ///< bad after it: "slip in 3", "code P0753"
    std::vector<std::size_t> told;  ///< the observations that tell of it, by their place
    /// The place of the observation that first showed that it did not hold.
    std::optional<std::size_t> failedAt;
    [[nodiscard]] bool failed() const { return failedAt.has_value(); }
};

/// The repairs that a visit's observations, oldest first, tell of. What is told after one that did
/// not hold is of the next repair where it names something else done, or where more was found at
/// the bench or on the road in between.
/// Checked: tests/bench/repair_steps_test.cpp.
std::vector<RepairStep> repairSteps(const std::vector<Observation>& observations,
                                    const WarmthLimits& limits);

/// What the step was decided by: the observations without its own. Of a step that did not hold,
/// those from before it was known.
std::vector<Observation> beforeStep(const std::vector<Observation>& observations,
                                    const RepairStep& step);

/// Codes read, or a drive, after a repair.
bool seenAfterRepair(const Observation& observation);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/driven.h"
#include "bench/observation.h"

#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// One repair, and whether it helped.
struct RepairStep {
    std::vector<std::string> rungs; ///< outcomes' names, the dearest counts; empty: as suggested
    std::vector<std::string> parts; ///< "solenoid A"; empty: those that were suggested
    std::optional<Held> held;       ///< at the next contact
    std::vector<std::string> still; ///< bad after it: "slip in 3", "code P0753"
    std::vector<std::size_t> told;  ///< the observations that record it, by their place
    /// Place of the observation that first showed that the repair did not hold.
    std::optional<std::size_t> failedAt;
    [[nodiscard]] bool failed() const { return failedAt.has_value(); }
};

/// The repairs in a visit's observations, oldest first. An entry after a repair that did not hold
/// belongs to the next repair if it names other work, or if more was found at the bench or on the
/// road in between.
/// Checked: tests/bench/repair_steps_test.cpp.
std::vector<RepairStep> repairSteps(const std::vector<Observation>& observations,
                                    const WarmthLimits& limits);

/// The observations on which the step was decided: all without its own. For a step that did not
/// hold, those from before this was known.
std::vector<Observation> beforeStep(const std::vector<Observation>& observations,
                                    const RepairStep& step);

/// Codes read, or a drive, after a repair.
bool seenAfterRepair(const Observation& observation);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "unit/application_chart.h"

#include <string>
#include <vector>

namespace swarfbook {

/// The gear obtained when a gear was commanded; `obtained` "" = none, neutral.
struct CommandedObtained {
    std::string commanded, obtained;
    auto operator<=>(const CommandedObtained&) const = default;
};

/// One solenoid stuck in one state, and the result in every gear that this changes.
struct StuckMatch {
    std::string solenoid;
    bool on = false; ///< stuck on, else off
    std::vector<CommandedObtained>
        predicts; ///< gears not observed in which another gear or none results
};

/// The gears whose row has these states, in the chart's order. A state `any` on either side fits;
/// modulated counts as on; common solenoids select no gear and are left out. Of a forward gear only
/// forward rows are looked up, since the selector's own valve parts R, N and P from them.
std::vector<std::string> rowsLike(const ApplicationChart& chart,
                                  const std::map<std::string, SolenoidCommand>& states,
                                  const std::string& commanded);

/// The gears that the chart gives for a commanded gear with one solenoid stuck; empty = none.
std::vector<std::string> obtainedWhenStuck(const ApplicationChart& chart,
                                           const std::string& commanded,
                                           const std::string& solenoid, bool on);

/// The single stuck solenoids that explain every observation. Gears seen to be right are
/// observations too: the same gear commanded and obtained.
/// Checked: tests/elimination/stuck_pattern_test.cpp.
std::vector<StuckMatch> stuckMatches(const ApplicationChart& chart,
                                     const std::vector<CommandedObtained>& observed);

/// Whether a loss of all current explains every observation: the gear obtained has the pattern
/// without current.
bool lostSupplyMatches(const ApplicationChart& chart,
                       const std::vector<CommandedObtained>& observed);

} // namespace swarfbook

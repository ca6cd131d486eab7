// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string_view>
#include <vector>

namespace swarfbook {

/// What can hurt someone, or the vehicle, at a step of the work.
enum class Hazard {
    drivingOn,
    untestedMetal,
    hoist,
    runningEngine,
    hotFluid,
    ignition,
    lowOhmCoil,
    compressedAir,
    magnets,
    slivers,
    clutchDust,
    solvents,
    waste,
    towing,
    stallTest,
    roadTest
};

/// All of them, in the order in which they are shown.
const std::vector<Hazard>& allHazards();

/// The usual caution in our words. The pressure limit is the US rule (29 CFR 1910.242(b)), the
/// distances for magnets are those given to wearers of heart implants; the others are common
/// practice, no source.
std::string_view cautionSentence(Hazard hazard);

/// The cautions for the step at which an observation of this kind ("solenoid", "bore") is made.
/// Checked: tests/bench/cautions_test.cpp.
std::vector<Hazard> hazardsAt(std::string_view observationKind);

/// Their sentences.
std::vector<std::string_view> cautionsAt(std::string_view observationKind);

/// Says that the maker's procedure, local rules and licensed practice come first; ends every
/// report.
std::string_view standingLine();

} // namespace swarfbook

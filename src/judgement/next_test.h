// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/cautions.h"
#include "judgement/facts.h"

#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// The one test to make, why it is missing and what its answers would mean.
/// Checked: tests/judgement/next_tests_test.cpp (none is asked for that was done).
struct NextTest {
    std::string why;
    std::string test;
    std::string answers;
    std::vector<Hazard> hazards = {};   ///< what making it can hurt by
    std::vector<Promise> promises = {}; ///< by `answers`
};
using MaybeTest = std::optional<NextTest>;

// Each asks for one test, where it would decide something and was not done yet.

/// The pieces in the hand: magnet and pliers.
MaybeTest lookAtPieces(const Facts& facts);
/// Water, where there is rust.
MaybeTest lookForWater(const Facts& facts);
/// The pan taken off.
MaybeTest lookAtDebris(const Facts& facts);
/// Where metal, lining, plastic or rubber comes from.
MaybeTest followDebris(const Facts& facts);

/// Supply and coils of the circuits that fail, before the pan is off and after.
MaybeTest measureSupply(const Facts& facts);
MaybeTest measureCircuits(const Facts& facts, const SuggestionModel& model);
MaybeTest checkSensors(const Facts& facts);
/// What of supply, earth, connector and harness was neither found good nor mended in vain yet, and
/// the test of it;
/// where all of it has, the test of what the control unit drives; "" where that was good as well.
std::vector<std::string> feedNotProven(const Facts& facts);
std::string feedTest(const Facts& facts);

/// Tests of the bench and of the debris, in the order in which they are asked for.
MaybeTest testInside(const Facts& facts);
/// The test that takes most candidates of the elimination away per minute; nothing where the
/// unit's chart is not known or nothing is left to separate.
MaybeTest testByElimination(const Facts& facts);
/// Where nothing else is left to ask.
NextTest lastTest(const Facts& facts);

} // namespace swarfbook

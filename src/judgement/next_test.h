// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/cautions.h"
#include "judgement/facts.h"

#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// The one test to make, why it is needed and what its answers mean. Checked:
/// tests/judgement/next_tests_test.cpp (no test that was done is asked for).
struct NextTest {
    std::string why;
    std::string test;
    std::string answers;
    std::vector<Hazard> hazards = {};   ///< how making it can hurt someone
    std::vector<Promise> promises = {}; ///< by `answers`
};
using MaybeTest = std::optional<NextTest>;

// Each asks for one test if it would decide something and was not done yet.

/// The pieces in the hand: magnet and pliers.
MaybeTest lookAtPieces(const Facts& facts);
/// Water, where there is rust.
MaybeTest lookForWater(const Facts& facts);
/// The pan taken off.
MaybeTest lookAtDebris(const Facts& facts);
/// The source of metal, lining, plastic or rubber.
MaybeTest followDebris(const Facts& facts);

/// Supply and coils of the circuits that fail, before the pan is off and after.
MaybeTest measureSupply(const Facts& facts);
MaybeTest measureCircuits(const Facts& facts, const SuggestionModel& model);
MaybeTest checkSensors(const Facts& facts);
/// Those of supply, earth, connector and harness that were neither found good nor repaired in vain
/// yet, and their test. If all of them were, the test of the parts that the control unit drives; ""
/// if those were good as well.
std::vector<std::string> feedNotProven(const Facts& facts);
std::string feedTest(const Facts& facts);

/// Tests of the bench and of the debris, in the order in which they are asked for.
MaybeTest testInside(const Facts& facts);
/// The test that removes most candidates of the elimination per minute; nothing if the unit's chart
/// is not known or nothing is left to separate.
MaybeTest testByElimination(const Facts& facts);
/// The test to ask for if nothing else is left.
NextTest lastTest(const Facts& facts);

} // namespace swarfbook

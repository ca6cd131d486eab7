// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/cautions.h"
#include "judgement/facts.h"

#include <optional>
#include <string>

namespace swarfbook {

/// The one test to make, why it is missing and what its answers would mean.
struct NextTest {
    std::string why;
    std::string test;
    std::string answers;
    std::vector<Hazard> hazards = {};   ///< what making it can hurt by
    std::vector<Promise> promises = {}; ///< by `answers`
};
using MaybeTest = std::optional<NextTest>;

/// Tests of the bench and of the debris, in the order in which they are asked for; each answers
/// where its test would decide something.
MaybeTest testInside(const Facts& facts);
/// The test that takes most candidates of the elimination away per minute; nothing where the
/// unit's chart is not known or nothing is left to separate.
MaybeTest testByElimination(const Facts& facts);
/// Where nothing else is left to ask.
NextTest lastTest(const Facts& facts);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "elimination/unit_diagnosis.h"

#include <string>
#include <vector>

namespace swarfbook {

/// A test that could be made, and what its answer would leave of the candidates.
struct TestChoice {
    std::string what;          ///< "Drive gear 4 with firm load, hot"
    double minutes = 0.0;      ///< bench time, access included
    double expectedLeft = 0.0; ///< candidates left on average, all being equally likely
    std::vector<std::string> leftIfBad, leftIfGood;
};

/// The evidence that the choice rests on.
struct CandidateContext {
    const ApplicationChart& chart;
    const UnitParts& parts;
    const std::vector<DutiesSeen>& seen;
    const EliminationEvidence& evidence;
    const Explanations& explanations;
};

/// Tests that separate candidates; the first removes most candidates per minute of bench time;
/// equal ones in order of their time. With one candidate left, the tests that would prove it. An
/// exchange is offered only for identical solenoids without data of their own. Minutes and access
/// times are settings.
/// Checked: tests/elimination/best_next_step_test.cpp (against counting by hand).
std::vector<TestChoice> testsByWorth(const CandidateContext& candidates,
                                     const BenchTests& settings);

/// "solenoid B" or "clutch P with solenoid B"
std::string explanationInWords(const UnitParts& parts, const ComponentSet& set);

} // namespace swarfbook

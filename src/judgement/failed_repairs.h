// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/visit_findings.h"
#include "judgement/evidence.h"
#include "judgement/suggestion.h"
#include "judgement/suggestion_model.h"

#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// A repair of this vehicle after which the complaint was still there or came back.
struct FailedRepair {
    Recommendation rung = Recommendation::notEnoughEvidence;
    std::vector<std::string> parts; ///< "solenoid A", "bore 2-3 shift valve", "fluid level"
    std::string sentence;           ///< what was done, when, and with what result
};

/// The dearest of several outcomes, given by their names; nothing where the list is empty. Throws
/// std::invalid_argument for a name that is not an outcome's.
std::optional<Recommendation> dearestOf(const std::vector<std::string>& rungs);

/// "Solenoid a" and "solenoid A" are one part.
bool samePart(const std::string& one, const std::string& other);

/// The parts that a suggestion names, with their kind: "solenoid A".
std::vector<std::string> partsOf(const Suggestion& suggestion);

/// Repairs of this and of earlier visits that did not hold, oldest first. A repair of an earlier
/// visit counts only if this visit has the same complaint, or none yet, and no repair in between
/// held. If nobody entered what was done, it is taken to be what the evidence before the repair
/// suggests.
/// Checked: tests/judgement/failed_repairs_test.cpp.
std::vector<FailedRepair> failedRepairs(const Evidence& evidence, const VisitFindings& now,
                                        const SuggestionModel& model);

} // namespace swarfbook

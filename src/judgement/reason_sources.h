// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/evidence.h"
#include "judgement/suggestion.h"
#include "judgement/suggestion_model.h"

#include <cstddef>
#include <vector>

namespace swarfbook {

/// The evidence that a reason rests on.
struct ReasonSources {
    std::vector<std::string> limits;       ///< that its rule applies, by name
    std::vector<std::size_t> observations; ///< indices into the visit's observations
    std::vector<std::size_t> photos;       ///< indices into the visit's samples
};

/// By the rule's entry in the model: observations of the kinds it reads. If the reason is about
/// certain solenoids, bores or clutches, only their observations.
/// Checked: tests/judgement/sensitivity_test.cpp.
ReasonSources sourcesOf(const Reason& reason, const VisitEvidence& visit,
                        const SuggestionModel& model);

} // namespace swarfbook

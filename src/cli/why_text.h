// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/evidence.h"
#include "judgement/suggestion.h"
#include "judgement/suggestion_model.h"

#include <nlohmann/json.hpp>

#include <string>

/// How the reasoning behind a suggestion is shown. Checked: tests/cli/judge_test.cpp.
namespace swarfbook::cli {

/// The first few single observations that would change it; "" if none was found.
std::string turnsText(const Suggestion& suggestion);
/// Borderline readings and counts; "" if there are none.
std::string bordersText(const Suggestion& suggestion);
/// Every reason with its rule, the limits of that rule and the observations it rests on, then what
/// nearly decided otherwise.
std::string whyText(const Suggestion& suggestion, const VisitEvidence& visit,
                    const SuggestionModel& model);
/// The same into `all_reasons` of the suggestion's document.
void addSources(nlohmann::ordered_json& document, const Suggestion& suggestion,
                const VisitEvidence& visit, const SuggestionModel& model);

} // namespace swarfbook::cli

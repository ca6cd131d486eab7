// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/debris_facts.h"
#include "judgement/evidence.h"
#include "judgement/suggestion.h"
#include "judgement/suggestion_model.h"

namespace swarfbook {

/// The suggestion for a visit, by an order of precedence: safety stops, proven causes outside the
/// unit, proven parts, damage inside that is proven or shown twice, cleaning; if none of these is
/// shown, the one next test. Missing evidence never counts as good evidence, and a costly step
/// needs two independent lines of evidence.
///
/// Pure: no file, no clock. Any evidence gives a suggestion; none at all gives "not enough
/// evidence".
/// Source: common practice of the trade; each rule and limit in models/suggestion.json.
/// Checked: tests/judgement/scenarios_test.cpp (worked cases, one readable file each).
Suggestion suggest(const Evidence& evidence, const SuggestionModel& model, ReadAt readAt = {});

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "elimination/elimination.h"
#include "judgement/evidence.h"
#include "judgement/suggestion_model.h"

#include <optional>

namespace swarfbook {

/// What a visit's gears, shifts, codes and tests leave of the unit's parts; nothing where the chart
/// of the unit is not known or nothing bad was told.
/// Checked: tests/judgement/elimination_reasons_test.cpp.
std::optional<Elimination> eliminationOf(const Evidence& evidence, const SuggestionModel& model);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/debris_facts.h"

/// What one item of debris is. Parts of debrisFacts(). Checked: tests/judgement/scenarios_test.cpp.
namespace swarfbook {

bool isMetal(DebrisKind kind);
/// A machined face counts as S4 at any size; an unknown size counts as S1.
TradeSize sizeOf(const DebrisItem& item);
Friction frictionOf(const DebrisItem& item);
/// Film, paste and silt: nothing that can be seen singly.
bool isFine(const DebrisItem& item);
/// What was seen by eye, with its sentence; left-overs of manufacture marked.
DebrisItem itemOf(const DebrisSeen& seen, bool firstOpening, const SuggestionModel& model);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "elimination/elimination.h"

namespace swarfbook {

/// What the sentences of an elimination are made from.
struct DiagnosisContext {
    const ApplicationChart& chart;
    const UnitParts& parts;
    const std::vector<DutiesSeen>& seen;
    const EliminationEvidence& evidence;
    const Explanations& explanations;
};

/// State and sentence of one part.
void judgePart(const DiagnosisContext& facts, std::size_t part, EliminatedPart& into);
/// The one sentence of what is left, for the head of a table.
std::string summaryOf(const DiagnosisContext& facts, const Elimination& elimination);
/// What a stuck solenoid would make of other gears, what all gears share, what quarrels.
std::vector<std::string> notesOf(const DiagnosisContext& facts, const Elimination& elimination);

} // namespace swarfbook

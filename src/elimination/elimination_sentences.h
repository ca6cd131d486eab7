// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "elimination/elimination.h"

namespace swarfbook {

/// The data from which the sentences of an elimination are made.
struct DiagnosisContext {
    const ApplicationChart& chart;
    const UnitParts& parts;
    const std::vector<DutiesSeen>& seen;
    const EliminationEvidence& evidence;
    const Explanations& explanations;
};

/// State and sentence of one part.
void judgePart(const DiagnosisContext& facts, std::size_t part, EliminatedPart& into);
/// The one sentence about the remaining parts, for the head of a table.
std::string summaryOf(const DiagnosisContext& facts, const Elimination& elimination);
/// Sentences on the gears that a stuck solenoid would give, on the parts that all gears share, and
/// on contradictions.
std::vector<std::string> notesOf(const DiagnosisContext& facts, const Elimination& elimination);

} // namespace swarfbook

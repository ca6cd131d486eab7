// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "elimination/elimination_evidence.h"

/// Parts of eliminationEvidence(): codes, and what the bench shows.
namespace swarfbook {

struct CodeContext {
    const SolenoidTable& solenoids;
    const BenchTests& settings;
};
/// Ratio codes mark their gear as bad, shift codes their shift; a circuit code means circuit or
/// coil, a performance code solenoid or bore, a pressure code what all gears share; converter
/// codes only the converter.
void readCodesForElimination(const ApplicationChart& chart, const VisitFindings& findings,
                             const CodeContext& context, EliminationEvidence& into);

/// Solenoids, bores, air checks, pressures, level and what lies outside the unit.
void readBenchForElimination(const ApplicationChart& chart, const VisitFindings& findings,
                             const BenchContext& context, EliminationEvidence& into);

/// How a gear was driven that was told to be bad: a code or a pressure of that gear is of the same.
Driven drivenWhenBad(const EliminationEvidence& evidence, const std::string& gear,
                     const Driven& otherwise);

} // namespace swarfbook

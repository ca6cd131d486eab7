// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "elimination/elimination_evidence.h"

/// Parts of eliminationEvidence(): codes and bench tests.
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

/// Solenoids, bores, air checks, pressures, level and faults outside the unit.
void readBenchForElimination(const ApplicationChart& chart, const VisitFindings& findings,
                             const BenchContext& context, EliminationEvidence& into);

/// How a bad gear was driven; a code or a pressure of that gear counts as read in the same drive.
Driven drivenWhenBad(const EliminationEvidence& evidence, const std::string& gear,
                     const Driven& otherwise);

} // namespace swarfbook

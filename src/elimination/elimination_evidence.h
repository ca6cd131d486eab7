// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/bores.h"
#include "bench/solenoids.h"
#include "bench/visit_findings.h"
#include "elimination/bench_tests.h"
#include "unit/unit_parts.h"

#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

enum class GearResult { good, slips, noDrive, wrongRatio };
struct GearSeen {
    std::string gear; ///< a name of the chart
    GearResult result = GearResult::good;
    Driven driven;
    std::string told; ///< "slip in 3", "code P0733"
};

/// `unlike` = a shift code: something was wrong, but the code does not say what.
enum class ShiftResult { good, flares, binds, unlike };
struct ShiftSeen {
    std::string from, to; ///< names of the chart
    ShiftResult result = ShiftResult::good;
    Driven driven;
    std::string told;
};

/// One gear was commanded, another came.
struct GearObtained {
    std::string commanded, obtained; ///< obtained "" = none: neutral
    Driven driven;
    std::string told;
};

/// A part that a test found in order or at fault.
struct PartTested {
    PartName part;
    bool inOrder = false;
    std::string sentence;
};
/// Of these parts at least one is at fault.
struct OneOfThese {
    std::vector<PartName> parts;
    std::string told; ///< "code P0776"
};

/// The evidence of a visit by which parts can be eliminated. Names are those of the chart.
struct EliminationEvidence {
    std::vector<GearSeen> gears;
    std::vector<ShiftSeen> shifts;
    std::vector<GearObtained> obtained;
    std::vector<std::string> converterBad; ///< entered: the converter clutch slips or shudders
    std::vector<PartTested> tested;
    std::vector<OneOfThese> oneOf;
    std::vector<std::string> pressureGoodIn; ///< gears with the right pressure
    std::vector<std::string> airHolds; ///< elements whose circuit holds air: the lining remains
    bool panOff = false, valveBodyOff = false;
    std::vector<std::string> notes; ///< entries that could not be used, one sentence each
};

struct BenchContext {
    const SolenoidTable& solenoids;
    const BoreTable& bores;
    const BenchTests& settings;
};

/// Sorts the observations of a visit for elimination, by the chart's names. The latest entry on the
/// same gear or shift under the same conditions counts; an entry without conditions replaces all
/// before. "all" and "forward" stand for their gears.
///
/// @param tables  solenoids and bores judged from the same observations, and the settings.
/// Checked: tests/elimination/elimination_evidence_test.cpp.
EliminationEvidence eliminationEvidence(const ApplicationChart& chart,
                                        const VisitFindings& findings, const BenchContext& tables);

} // namespace swarfbook

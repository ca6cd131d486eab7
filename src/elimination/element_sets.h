// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "elimination/elimination_evidence.h"
#include "unit/unit_parts.h"

#include <map>
#include <set>
#include <string>

namespace swarfbook {

/// The elements alone, by gears that slip and gears that hold.
struct ElementSets {
    std::set<std::string> must;    ///< hold in every bad gear
    std::set<std::string> cleared; ///< hold in a good gear that was not driven less than a bad one
    std::set<std::string> hard;    ///< must without cleared
    /// `must` without elements that hold in a good gear that was surely driven as hard and as warm.
    std::set<std::string> soft;
    std::map<std::string, double> score; ///< points for each bad gear, against for each good one
    bool everyGearBad = false; ///< all forward gears and reverse: look at the parts that all share
};
/// A bad gear is one that slips, does not drive or has a wrong ratio. An element that is applied
/// without torque is neither suspected nor cleared there. A one-way clutch that slips in the
/// automatic range and is bridged in the good manual range stays suspect.
/// Checked: tests/elimination/element_sets_test.cpp.
ElementSets elementSets(const ApplicationChart& chart, const EliminationEvidence& evidence,
                        const BenchTests& settings);

/// Elements with their role that take part in every bad shift and in no good one.
std::set<ElementRole> shiftSuspects(const ApplicationChart& chart,
                                    const EliminationEvidence& evidence);

} // namespace swarfbook

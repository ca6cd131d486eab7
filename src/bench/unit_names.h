// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/observation.h"

#include <string>
#include <string_view>
#include <vector>

namespace swarfbook {

/// What the parts of the unit at hand are called: the work sheet has a row for each, and what is
/// typed is held against them.
struct UnitNames {
    struct Element {
        std::string kind; ///< "clutch", "brake", "one-way clutch"
        std::string name;
    };
    std::string unit;                ///< "Demo 5"; "" = no chart is known
    std::vector<std::string> gears;  ///< automatic ranges that drive, in the chart's order
    std::vector<std::string> ranges; ///< all the others: by hand, P, N
    std::vector<std::string> solenoids, bores;
    std::vector<Element> elements;
};

/// Asks about a gear, shift, solenoid, clutch or brake that the unit does not have: a UsageError
/// that names those it has. Names are taken in the chart's own capitals. A bore that the chart does
/// not list is taken, since charts seldom list all.
/// Checked: tests/bench/unit_names_test.cpp.
void questionAgainstUnit(Observation& observation, const UnitNames& names);

/// The same of a part that is named by itself: "solenoid a", "clutch Q", "brake X". What names no
/// solenoid, clutch or brake is taken as it is. @return it, a solenoid as the chart calls it.
/// Checked: tests/bench/unit_names_test.cpp.
std::string partOfUnit(std::string part, const UnitNames& names);

/// Whether elimination can use what is said of this bore: the chart lists it, or lists none.
bool isBoreOf(const UnitNames& names, const std::string& bore);

} // namespace swarfbook

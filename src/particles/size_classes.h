// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace swarfbook {

/// One size class of ISO 16232: `from` belongs to it, `to` to the next. The last one is open.
struct SizeClass {
    std::string_view letter;
    Micrometres from;
    Micrometres to; ///< +infinity for class N
};

/// Classes B to N of ISO 16232 (2018), by maximum Feret diameter, smallest first.
/// Checked: tests/particles/size_classes_test.cpp (published table).
std::span<const SizeClass> sizeClasses();

/// Letter of the class that holds this maximum Feret; "" below class B (under 5 um).
std::string sizeClassOf(Micrometres maxFeret);

/// Contamination level of ISO 16232 for a count per 1000 cm2 (or per 100 cm3): "00" for none, "0"
/// up to 1, ... "24" up to 16 000 000, ">24" beyond. Throws std::logic_error for a negative count.
std::string levelNumber(double countPer1000Cm2);

/// One entry of a cleanliness code.
struct CodeEntry {
    std::string sizeClass;
    double count = 0.0; ///< over the whole area, or in the whole sample
};

/// "A(E8/F7/...)": levels per 1000 cm2 of the area the counts were found on; "" for no entries.
/// Throws std::logic_error if the area is not positive.
std::string codePerArea(const std::vector<CodeEntry>& entries, SquareCentimetres area);

/// "N(E120/F45/...)": the counts themselves, of one component (here: one whole sample).
std::string codePerComponent(const std::vector<CodeEntry>& entries);

} // namespace swarfbook

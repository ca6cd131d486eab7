// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "elimination/diagnosis.h"
#include "elimination/elimination_evidence.h"
#include "unit/unit_parts.h"

#include <string>
#include <vector>

namespace swarfbook {

/// One observation by the duties it needs: at least one of them failed, or all were done.
struct DutiesSeen {
    bool bad = false;
    Duties duties;
    Driven driven;
    std::string where; ///< "3", "the shift 2-3", "the converter"
    std::string told;  ///< "slip in 3"
    bool atShift = false;
};
/// "the shift 2-3".
std::string shiftInWords(const std::string& from, const std::string& to);
/// Everything seen of the unit, by duties.
std::vector<DutiesSeen> dutiesSeen(const ApplicationChart& chart, const UnitParts& parts,
                                   const EliminationEvidence& evidence);

/// Which good observations clear a duty that a bad one needs.
enum class Clearing {
    unlessLess, ///< all but those surely driven less hard or at another temperature
    onlySure    ///< only those surely driven as hard and as warm
};
/// Whether the good drive asked as much of the parts as the bad one; in one drive it did.
Asked askedAs(const DutiesSeen& good, const DutiesSeen& bad);
/// Whether the good one counts against the bad one.
bool clears(const DutiesSeen& good, const DutiesSeen& bad, Clearing clearing);
/// The duties of a bad observation that no good one clears.
Duties openDuties(const DutiesSeen& bad, const std::vector<DutiesSeen>& seen, Clearing clearing);

/// The unit as components (the parts, by their numbers) with what was seen: a part in order does
/// its duties; a bad observation says that one of its duties was not done, a good one that all
/// were; a test says whether a part is in order; a code says that one of several is not.
ComponentModel modelOfUnit(const UnitParts& parts, const std::vector<DutiesSeen>& seen,
                           const EliminationEvidence& evidence, Clearing clearing);

/// The remaining faults that explain everything seen.
struct Explanations {
    std::vector<ComponentSet> sets; ///< of parts: single ones, or pairs when no single one does
    Clearing clearing = Clearing::unlessLess;
    bool pairs = false;
    bool contradictory = false; ///< no set of faults explains it
    std::vector<std::string>
        quarrelling; ///< contradictory: the observations that do not fit together
};
/// Single faults first: with all good gears; if no element or no fault at all remains, with gears
/// surely driven as hard; pairs only if no single fault explains everything. Adding a true
/// observation never adds a single fault under the same clearing.
/// Checked: tests/elimination/elimination_property_test.cpp.
Explanations explain(const UnitParts& parts, const std::vector<DutiesSeen>& seen,
                     const EliminationEvidence& evidence);

} // namespace swarfbook

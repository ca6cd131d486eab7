// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/visit_findings.h"

#include <set>
#include <string>
#include <vector>

namespace swarfbook {

/// One thing in the complaint: in words, and whether it is a noise.
struct Told {
    std::string words;
    bool noise = false;
};

/// How it drives, and what the controller stored.
struct SymptomFacts {
    bool driveTold = false;          ///< somebody said how it drives
    std::set<std::string> slipGears; ///< slip or no drive, typed by gear
    std::set<std::string> goodGears;
    std::set<std::string> noiseGears;
    std::set<std::string> quietGears;
    bool slipInGeneral = false; ///< slip without a gear, or in all of them
    bool noDrive = false;       ///< in general or in all gears
    bool noDriveInGear = false;
    std::vector<std::string> badShifts; ///< "bind at the shift 2-3"
    std::set<std::string> shifts;       ///< by name, those that are bad, harsh or late
    bool shudder = false;
    bool converterSlip = false; ///< shudder or slip that ends at a tap of the brake, or so named
    bool notConverter = false;  ///< shudder that goes on at a tap of the brake
    bool failSafe = false;
    bool wrongGear = false;
    bool overheats = false;
    bool harshOrLate = false; ///< mild, in general, in a gear or over a shift
    bool noise = false;
    bool whine = false; ///< a noise of a pump that draws air or runs dry; not grinding or knocking
    bool onlyHot = false;
    std::vector<Told> told; ///< bad ones in plain words: "slip in 3 (firm load, hot)"

    bool codesRead = false;
    std::vector<TroubleCode> codes; ///< before the repair
    [[nodiscard]] std::vector<const TroubleCode*> ofFamily(CodeFamily family) const;
    [[nodiscard]] bool has(CodeFamily family) const { return !ofFamily(family).empty(); }
    /// Solenoid codes of the electrical kind.
    [[nodiscard]] std::vector<const TroubleCode*> circuits() const;
    /// Codes for a right current with a wrong result.
    [[nodiscard]] std::vector<const TroubleCode*> performances() const;
    std::set<std::string> ratioGears;

    /// Slip, wrong ratio or no drive, in a gear or in general.
    [[nodiscard]] bool slips() const;
    /// A gear is named by slip or ratio code.
    [[nodiscard]] bool slipsInDefinedGears() const {
        return !slipGears.empty() || !ratioGears.empty();
    }
    /// Anything beyond mild: not merely harsh or late.
    [[nodiscard]] bool anyBad() const;
    /// Any code that is more than a pointer.
    [[nodiscard]] bool anyCode() const;
    /// "slip in 3, whine in 1; codes P0733, P0735"
    [[nodiscard]] std::string inWords() const;
    /// The same without noises, which no solenoid, bore, circuit or lining makes; "" when that
    /// leaves nothing.
    [[nodiscard]] std::string inWordsWithoutNoise() const;
    /// The noises alone: "whine in 1 and R".
    [[nodiscard]] std::string noisesInWords() const;
};

SymptomFacts symptomFacts(const VisitFindings& findings);

} // namespace swarfbook

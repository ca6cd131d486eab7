// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/bores.h"
#include "bench/solenoids.h"
#include "elimination/elimination.h"
#include "judgement/debris_facts.h"
#include "judgement/failed_repairs.h"
#include "judgement/symptom_facts.h"
#include "judgement/visit_samples.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// A fault found outside the transmission, and what of the case it can account for.
struct OutsideFault {
    std::string what;                ///< "connector", "fluid level"
    std::optional<OutsideItem> item; ///< nothing: level or fluid
    std::string sentence;
    bool explains = false; ///< something told is of the kind it causes, or nothing is told at all
    bool electrical = false;
};

/// All evidence of a visit in the form that rules ask for. Absent optionals mean not looked at.
struct Facts {
    std::shared_ptr<const VisitFindings> findings; ///< what the pointers below point into
    std::unique_ptr<DebrisFacts> debris;
    SymptomFacts symptoms;
    SolenoidTable solenoids;
    BoreTable bores;
    std::vector<OutsideFault> outside;
    const LevelSeen* level = nullptr; ///< latest
    bool pressureLowEverywhere = false, pressureLowInRange = false, pressureDrops = false;
    bool pressureNormal = false;
    std::vector<const AirCheck*> leakingElements, holdingElements;
    bool wipedWithoutRecord = false;
    std::optional<Kilometres> sinceRebuild;
    std::optional<bool> coolerFlushed;
    std::optional<bool> coolerFlowLow;
    std::string coolerSentence;
    std::optional<bool> converterDrainDirty, converterHubBad, converterBlued, converterCoolant;
    std::optional<EndPlay> endPlay;
    ValveBodySeen valveBody;
    std::optional<Adaptation> adaptation;
    bool filterNeckBad = false; ///< neck or seal: the pump draws air
    std::string filterNeckSentence;
    std::optional<Kilometres> sinceClean;
    const std::vector<FlushOfPart>* flushes = nullptr; ///< of the evidence
    std::vector<std::string> notInspected;
    std::string overruled;
    std::vector<FailedRepair> failedRepairs; ///< oldest first
    std::optional<VisitComparison> change;   ///< against the last comparable visit
    std::string noComparison;                ///< why there is none, "" when no earlier visit
    std::string customersWords;
    std::optional<Elimination> elimination; ///< where the unit's chart is known
    std::string noUnit;                     ///< why it is not

    [[nodiscard]] std::vector<const SolenoidVerdict*> provenSolenoids() const;
    [[nodiscard]] std::vector<const SolenoidVerdict*> suspectSolenoids() const;
    /// The newest flush of a solenoid, by the log of its passes; null where there is none.
    [[nodiscard]] const FlushOfPart* flushOf(const SolenoidVerdict& solenoid) const;
    /// Bores that leak: low, or marginal where there is a symptom they can explain.
    [[nodiscard]] std::vector<const BoreVerdict*> failingBores() const;
    [[nodiscard]] bool boresTested() const;
    /// At least one bore was read and none of them leaks.
    [[nodiscard]] bool boresPass() const;
    /// The solenoid that a code means by its letter, if its readings were entered; an entry named
    /// "all" or "rest" stands for those that were not entered by name.
    [[nodiscard]] const SolenoidVerdict* solenoidOf(const TroubleCode& code) const;
    [[nodiscard]] const SolenoidVerdict* converterSolenoid() const;
    /// Every solenoid entered is known to move and seal, and there is at least one.
    [[nodiscard]] bool solenoidsGood() const;
    /// A repair that did not hold exchanged or repaired this part for the same complaint.
    [[nodiscard]] bool doneInVain(const std::string& part) const;
    [[nodiscard]] bool doneInVain(Recommendation rung) const;
    /// This was looked at outside, whatever was found; and found good.
    [[nodiscard]] bool looked(OutsideItem item) const;
    [[nodiscard]] bool foundGood(OutsideItem item) const;
    [[nodiscard]] bool levelRight() const {
        return level != nullptr && level->found == LevelFound::right;
    }
};

/// @param evidence must outlive the facts.
Facts factsOf(const Evidence& evidence, const SuggestionModel& model, ReadAt readAt = {});

} // namespace swarfbook

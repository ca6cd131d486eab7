// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/converter_clutch.h"
#include "bench/part_names.h"
#include "judgement/facts.h"
#include "judgement/flush_words.h"

#include <algorithm>

namespace swarfbook {

std::vector<const SolenoidVerdict*> Facts::provenSolenoids() const {
    std::vector<const SolenoidVerdict*> found;
    for (const SolenoidVerdict& v : solenoids.each)
        if (v.state == SolenoidState::proven)
            found.push_back(&v);
    return found;
}

std::vector<const SolenoidVerdict*> Facts::suspectSolenoids() const {
    std::vector<const SolenoidVerdict*> found;
    for (const SolenoidVerdict& v : solenoids.each)
        if (v.state == SolenoidState::suspect)
            found.push_back(&v);
    return found;
}

const FlushOfPart* Facts::flushOf(const SolenoidVerdict& solenoid) const {
    return flushes == nullptr ? nullptr : flushOfSolenoid(*flushes, solenoid.name);
}

std::vector<const BoreVerdict*> Facts::failingBores() const {
    std::vector<const BoreVerdict*> found;
    if (bores.allLowAlike)
        return found;
    const bool marginalCounts = symptoms.anyBad() || symptoms.anyCode();
    for (const BoreVerdict& b : bores.each)
        if (doneInVain("bore " + b.name))
            continue;
        else if (b.state >= BoreState::low || (b.state == BoreState::marginal && marginalCounts))
            found.push_back(&b);
    return found;
}

bool Facts::boresTested() const {
    return std::any_of(bores.each.begin(), bores.each.end(),
                       [](const auto& b) { return b.state != BoreState::untested; });
}

bool Facts::boresPass() const {
    return boresTested() && std::none_of(bores.each.begin(), bores.each.end(), [](const auto& b) {
               return b.state >= BoreState::marginal;
           });
}

const SolenoidVerdict* Facts::solenoidOf(const TroubleCode& code) const {
    if (code.converter)
        return converterSolenoid();
    const SolenoidVerdict* others = nullptr;
    for (const SolenoidVerdict& v : solenoids.each) {
        if (!code.solenoid.empty() && meansLetter(v.name, code.solenoid))
            return &v;
        if (standsForOthers(v.name))
            others = &v;
    }
    return others;
}

const SolenoidVerdict* Facts::converterSolenoid() const {
    const SolenoidVerdict* others = nullptr;
    for (const SolenoidVerdict& v : solenoids.each) {
        if (servesConverterClutch(v.type, v.name))
            return &v;
        if (standsForOthers(v.name))
            others = &v;
    }
    return others;
}

bool Facts::doneInVain(const std::string& part) const {
    return std::any_of(failedRepairs.begin(), failedRepairs.end(), [&](const FailedRepair& done) {
        return std::any_of(done.parts.begin(), done.parts.end(),
                           [&](const std::string& one) { return samePart(one, part); });
    });
}

bool Facts::doneInVain(Recommendation rung) const {
    return std::any_of(failedRepairs.begin(), failedRepairs.end(),
                       [&](const FailedRepair& done) { return done.rung == rung; });
}

bool Facts::looked(OutsideItem item) const {
    return std::any_of(findings->outside.begin(), findings->outside.end(),
                       [&](const OutsideCheck& check) { return check.item == item; });
}

bool Facts::foundGood(OutsideItem item) const {
    return std::any_of(findings->outside.begin(), findings->outside.end(),
                       [&](const OutsideCheck& check) {
                           return check.item == item && check.result == Checked::good;
                       });
}

bool Facts::solenoidsGood() const {
    // one entry can speak for all: those of which only the coil was read move and seal as well
    const bool allTested =
        std::any_of(solenoids.each.begin(), solenoids.each.end(), [](const auto& v) {
            return standsForOthers(v.name) && v.state == SolenoidState::good;
        });
    return !solenoids.each.empty() &&
           std::all_of(solenoids.each.begin(), solenoids.each.end(), [&](const auto& v) {
               return v.state == SolenoidState::good ||
                      (allTested && v.state == SolenoidState::coilGood);
           });
}

} // namespace swarfbook

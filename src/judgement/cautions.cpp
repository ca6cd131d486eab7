// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/cautions.h"

#include "judgement/rules.h"

#include <set>

namespace swarfbook {
namespace {

std::set<Hazard> hazardsOf(const Suggestion& s, const Facts& facts) {
    using enum Hazard;
    std::set<Hazard> all{hoist, hotFluid, slivers, clutchDust, solvents, waste};
    const bool parts = s.outcome == Recommendation::replaceSolenoids;
    const bool body =
        s.outcome == Recommendation::repairBores || s.outcome == Recommendation::replaceValveBody;
    all.insert(s.doNotDrive ? drivingOn : towing);
    if (parts || s.outcome == Recommendation::outsideTheUnit || !facts.symptoms.circuits().empty())
        all.insert(ignition);
    if (parts || !facts.solenoids.each.empty())
        all.insert(lowOhmCoil);
    if (body)
        all.insert(compressedAir);
    all.insert(s.nextTestHazards.begin(), s.nextTestHazards.end());
    return all;
}

} // namespace

std::vector<std::string> cautionsFor(const Suggestion& suggestion, const Facts& facts) {
    std::vector<std::string> cautions;
    const std::set<Hazard> needed = hazardsOf(suggestion, facts);
    for (const Hazard hazard : allHazards())
        if (needed.contains(hazard))
            cautions.emplace_back(cautionSentence(hazard));
    return cautions;
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/cautions.h"

#include "judgement/rules.h"

#include <set>

namespace swarfbook {
namespace {

bool says(const std::string& text, const char* part) {
    return text.find(part) != std::string::npos;
}

std::set<Hazard> hazardsOf(const Suggestion& s, const Facts& facts) {
    using enum Hazard;
    std::set<Hazard> all{hoist, hotFluid, slivers, clutchDust, solvents, waste};
    const bool parts = s.outcome == Outcome::replaceSolenoids;
    const bool body = s.outcome == Outcome::repairBores || s.outcome == Outcome::replaceValveBody;
    all.insert(s.doNotDrive ? drivingOn : towing);
    if (parts || s.outcome == Outcome::outsideTheUnit || !facts.symptoms.circuits().empty() ||
        says(s.nextTest, "coil") || says(s.nextTest, "solenoid"))
        all.insert(ignition);
    if (parts || !facts.solenoids.each.empty())
        all.insert(lowOhmCoil);
    if (body || says(s.nextTest, "ir-check"))
        all.insert(compressedAir);
    if (says(s.nextTest, "emagnetise") || says(s.nextTest, "magnet"))
        all.insert(magnets);
    if (says(s.nextTest, "pressure"))
        all.insert(stallTest);
    if (says(s.nextTest, "rive it"))
        all.insert(roadTest);
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

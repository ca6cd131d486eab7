// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/plastic_part.h"
#include "judgement/rules.h"

#include <fmt/format.h>

#include <cctype>

namespace swarfbook {
namespace {

constexpr Strength failedStrength = Strength::outweighsAll;

bool control(Recommendation outcome) {
    return outcome == Recommendation::replaceSolenoids || outcome == Recommendation::repairBores ||
           outcome == Recommendation::replaceValveBody;
}

/// Oil or corrosion in the connector, found as such or in a note about it.
bool connectorAtFault(const Facts& facts) {
    for (const OutsideFault& fault : facts.outside)
        if (fault.item == OutsideItem::connector)
            return true;
    return false;
}

/// Wear that cleaning does not cure. A few specks, or a thick paste on the magnet alone, do not
/// count: the suggestion calls them harmless.
bool wornUnit(const Facts& facts) {
    const DebrisFacts& d = *facts.debris;
    return d.friction >= Friction::heavy || (d.anyMetal() && !d.onlyFinesOrSpecks()) ||
           d.burntSmell || (d.coat && *d.coat >= Coat::f4) ||
           facts.adaptation == Adaptation::atLimit;
}

} // namespace

std::string throughTheCircuit(const DebrisFacts& debris) {
    return fmt::format(
        "This debris {} gone with the fluid through converter and cooler. A welded converter "
        "cannot be cleaned reliably, and what stays in the old cooler can do the damage again.",
        debris.beyondThePan() ? "has" : "may have");
}

void addFailedRepairs(const Facts& facts, Draft& draft) {
    for (const FailedRepair& done : facts.failedRepairs)
        draft.but("repair_failed", failedStrength, done.sentence);
}

void addScope(const Facts& facts, Suggestion& s) {
    const DebrisFacts& d = *facts.debris;
    if (s.outcome == Recommendation::openTheTransmission) {
        if (d.stopMetal != nullptr || d.nonMagnetic != nullptr || facts.pressureLowEverywhere)
            s.scope.emplace_back("Pump: inspect body and cover for grooves (scoring).");
        if (d.milky || facts.converterCoolant == true)
            s.scope.emplace_back("Heat exchanger: renew it, and flush the engine's coolant side.");
        s.scope.emplace_back("Filter, seals and fluid: renew them.");
    }
    if (std::string part = plasticPartOutside(d); !part.empty()) {
        part[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(part[0])));
        s.scope.push_back(part + ": renew it, and look for the rest of what broke off.");
    }
    if (s.outcome == Recommendation::replaceValveBody)
        s.scope.emplace_back("Cooler: flush it before the new valve body gets its fluid.");
    if (control(s.outcome) || s.outcome == Recommendation::cleanAndRefit)
        s.scope.emplace_back("Filter, pan seal and fluid: renew them.");
    if (s.outcome == Recommendation::repairBores)
        for (const BoreVerdict* bore : facts.failingBores())
            if (bore->newValveRestores)
                s.scope.push_back(fmt::format("Bore {}: a new valve restores its reading, so the "
                                              "valve alone will do, without reaming.",
                                              bore->name));
    if (connectorAtFault(facts))
        s.scope.emplace_back(
            "Connector and its seal: renew them, and clean the pins on both sides.");
    const bool cheap = control(s.outcome) || s.outcome == Recommendation::cleanAndRefit ||
                       s.outcome == Recommendation::outsideTheUnit;
    if (cheap && wornUnit(facts))
        s.customersRisk =
            "This unit shows wear that the step suggested does not cure. New fluid and new parts "
            "can "
            "bring out what the old fluid was hiding, and it may have to be opened later. I have "
            "been told so, and order the work. Date, signature: ____________";
}

} // namespace swarfbook

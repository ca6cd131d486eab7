// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/promises.h"

namespace swarfbook::promises {
namespace {

SolenoidReadings named(const std::string& solenoid) {
    SolenoidReadings reading;
    reading.name = solenoid;
    return reading;
}

/// A proven part is ordered once the debris has been looked at; before that the pan comes first.
std::vector<Outcome> once(const Facts& facts, Outcome outcome) {
    if (!facts.debris->inspected)
        return {Outcome::notEnoughEvidence};
    if (facts.debris->onlyFinesOrSpecks())
        return {outcome};
    return {outcome, Outcome::notEnoughEvidence, Outcome::openTheTransmission};
}

} // namespace

std::vector<Promise> coilAtItsPins(const Facts& facts, const std::string& solenoid, bool hot) {
    SolenoidReadings open = named(solenoid), right = named(solenoid);
    open.coilAt = right.coilAt = MeasuredAt::pins;
    open.openCircuit = true;
    right.openCircuit = false;
    right.siblings = AgainstSiblings::alike;
    if (hot)
        right.hotOpen = false;
    return {{"bad at its own pins", open, once(facts, Outcome::replaceSolenoids), ""},
            {"good at its own pins", right, {Outcome::outsideTheUnit}, ""}};
}

std::vector<Promise> flushed(const Facts& facts, const std::string& solenoid) {
    SolenoidReadings worse = named(solenoid);
    worse.flushed = worse.demagnetised = true;
    SolenoidReadings good = worse;
    worse.siblings = AgainstSiblings::worse;
    good.siblings = AgainstSiblings::alike;
    good.leakOff = good.leakOn = LeakSeen::seals;
    good.command = good.hotCommand = Movement::works;
    return {{"still worse than its sibling", worse, once(facts, Outcome::replaceSolenoids), ""},
            {"as good as its sibling", good, {Outcome::cleanAndRefit}, ""}};
}

std::vector<Promise> measuredAgain(const Facts& facts, const std::string& solenoid) {
    for (const SolenoidReadings& reading : mergedSolenoids(facts.findings->solenoids))
        if (reading.name == solenoid)
            return {{"still apart", reading, once(facts, Outcome::replaceSolenoids), ""}};
    return {};
}

std::vector<Promise> pinsReadAgain(const Facts& facts, const std::string& solenoid) {
    return {coilAtItsPins(facts, solenoid, false).front()};
}

std::vector<Promise> exchanged(const Facts& facts, const std::string& solenoid) {
    SolenoidReadings moves = named(solenoid), stays = named(solenoid);
    moves.swap = SwapResult::moves;
    stays.swap = SwapResult::stays;
    return {{"the fault moves", moves, once(facts, Outcome::replaceSolenoids), ""},
            {"the fault stays",
             stays,
             {Outcome::notEnoughEvidence, Outcome::repairBores, Outcome::replaceValveBody},
             ""}};
}

std::vector<Promise> airChecked(const Facts& /*whatever else is known*/) {
    return {{"it leaks",
             AirCheck{"the clutch concerned", {}, AirCheckResult::leaks},
             {Outcome::openTheTransmission},
             ""}};
}

std::vector<Promise> fluidLookedAt() {
    FluidSeen milky;
    milky.milky = true;
    return {{"milky", milky, {Outcome::openTheTransmission}, ""}};
}

std::vector<Promise> plasticTraced(const DebrisFacts& debris) {
    DebrisSeen baffle, chain;
    baffle.place = chain.place = debris.plastic->place;
    baffle.what = chain.what = DebrisKind::plastic;
    baffle.part = PlasticPart::baffle;
    chain.part = PlasticPart::chainGuide;
    return {{"off a baffle", baffle, {Outcome::cleanAndRefit, Outcome::notEnoughEvidence}, ""},
            {"off a chain guide", chain, {Outcome::openTheTransmission}, ""}};
}

std::vector<Promise> endPlayMeasured() {
    return {{"too much play", EndPlaySeen{EndPlay::excess}, {Outcome::openTheTransmission}, ""}};
}

} // namespace swarfbook::promises

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

/// A proven part is ordered once the debris has been looked at; until then the pan comes first.
std::vector<Recommendation> once(const Facts& facts, Recommendation outcome) {
    if (!facts.debris->inspected)
        return {Recommendation::notEnoughEvidence};
    if (facts.debris->onlyFinesOrSpecks())
        return {outcome};
    return {outcome, Recommendation::notEnoughEvidence, Recommendation::openTheTransmission};
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
    return {{"bad at its own pins", open, once(facts, Recommendation::replaceSolenoids), ""},
            {"good at its own pins", right, {Recommendation::outsideTheUnit}, ""}};
}

std::vector<Promise> flushed(const Facts& facts, const std::string& solenoid) {
    SolenoidReadings worse = named(solenoid);
    worse.flushed = worse.demagnetised = true;
    SolenoidReadings good = worse;
    worse.siblings = AgainstSiblings::worse;
    good.siblings = AgainstSiblings::alike;
    good.leakOff = good.leakOn = LeakSeen::seals;
    good.command = good.hotCommand = Movement::works;
    return {
        {"still worse than its sibling", worse, once(facts, Recommendation::replaceSolenoids), ""},
        {"as good as its sibling", good, {Recommendation::cleanAndRefit}, ""}};
}

std::vector<Promise> measuredAgain(const Facts& facts, const std::string& solenoid) {
    for (const SolenoidReadings& reading : mergedSolenoids(facts.findings->solenoids))
        if (reading.name == solenoid)
            return {{"still apart", reading, once(facts, Recommendation::replaceSolenoids), ""}};
    return {};
}

std::vector<Promise> pinsReadAgain(const Facts& facts, const std::string& solenoid) {
    return {coilAtItsPins(facts, solenoid, false).front()};
}

std::vector<Promise> exchanged(const Facts& facts, const std::string& solenoid) {
    SolenoidReadings moves = named(solenoid), stays = named(solenoid);
    moves.swap = SwapResult::moves;
    stays.swap = SwapResult::stays;
    return {{"the fault moves", moves, once(facts, Recommendation::replaceSolenoids), ""},
            {"the fault stays",
             stays,
             {Recommendation::notEnoughEvidence, Recommendation::repairBores,
              Recommendation::replaceValveBody},
             ""}};
}

std::vector<Promise> airChecked(const Facts& /*whatever else is known*/) {
    return {{"it leaks",
             AirCheck{"the clutch concerned", {}, AirCheckResult::leaks},
             {Recommendation::openTheTransmission},
             ""}};
}

std::vector<Promise> fluidLookedAt() {
    FluidSeen milky;
    milky.milky = true;
    return {{"milky", milky, {Recommendation::openTheTransmission}, ""}};
}

std::vector<Promise> plasticTraced(const DebrisFacts& debris) {
    DebrisSeen baffle, chain;
    baffle.place = chain.place = debris.plastic->place;
    baffle.what = chain.what = DebrisKind::plastic;
    baffle.part = PlasticPart::baffle;
    chain.part = PlasticPart::chainGuide;
    return {{"off a baffle",
             baffle,
             {Recommendation::cleanAndRefit, Recommendation::notEnoughEvidence},
             ""},
            {"off a chain guide", chain, {Recommendation::openTheTransmission}, ""}};
}

std::vector<Promise> endPlayMeasured() {
    return {
        {"too much play", EndPlaySeen{EndPlay::excess}, {Recommendation::openTheTransmission}, ""}};
}

} // namespace swarfbook::promises

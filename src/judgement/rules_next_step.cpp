// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/next_test.h"
#include "judgement/rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace swarfbook {
namespace {

bool hydraulicComplaint(const SymptomFacts& s) {
    return s.slips() || !s.badShifts.empty() || s.overheats || s.noise || s.shudder ||
           s.has(CodeFamily::pressure);
}

MaybeTest tellHowItDrives(const Facts& facts) {
    if (facts.symptoms.driveTold || facts.symptoms.codesRead)
        return std::nullopt;
    return NextTest{
        "How it drives and which codes are stored is not recorded.",
        "Read the codes of all control units and drive it, cold and hot, through every "
        "gear.",
        "No code and no complaint allows cleaning; a slip or a code shows where to look.",
        {Hazard::roadTest}};
}

MaybeTest checkLevel(const Facts& facts) {
    if (facts.level != nullptr || !hydraulicComplaint(facts.symptoms) || facts.debris->milky)
        return std::nullopt;
    const SymptomFacts& s = facts.symptoms;
    const bool controlTested = !facts.solenoids.each.empty() || facts.boresTested();
    if (controlTested && !s.slips())
        return std::nullopt;
    if (controlTested && facts.debris->inspected)
        return std::nullopt; // the unit is open: the level can no longer be read
    return NextTest{"The fluid level is not recorded, and a low level alone makes it slip and sets "
                    "ratio codes.",
                    "Check the level at the temperature the maker states, and look for leaks.",
                    "Low: put it right and test again. Right: the search goes on inside."};
}

MaybeTest readCodes(const Facts& facts) {
    if (facts.symptoms.codesRead || !facts.symptoms.anyBad())
        return std::nullopt;
    return NextTest{"The codes have not been read.",
                    "Read the codes of all control units and keep the freeze frames.",
                    "An electrical code points at circuit or coil, a ratio code at what slips."};
}

/// A pointer code asks to read other codes; a network code says that modules do not hear each
/// other.
MaybeTest readOtherModules(const Facts& facts) {
    const SymptomFacts& s = facts.symptoms;
    const auto pointers = s.ofFamily(CodeFamily::pointer);
    const bool onlyPointers = !pointers.empty() && pointers.size() == s.codes.size();
    const auto network = std::find_if(s.codes.begin(), s.codes.end(), [](const TroubleCode& code) {
        return code.text.starts_with('U');
    });
    using enum OutsideItem;
    const bool networkLooked = facts.looked(supply) || facts.looked(earth) ||
                               facts.looked(harness) || facts.looked(controlUnit);
    if (network != s.codes.end() && !networkLooked)
        return NextTest{
            fmt::format("Code {} says that control units do not hear each other, which "
                        "alone can bring a fail-safe gear.",
                        network->text),
            "Read all control units, measure supply and earth of the one that is "
            "missing, and the two wires of the network.",
            "A unit without supply or a broken wire lies outside; a sound network sends "
            "the search inside.",
            {Hazard::ignition}};
    if (!onlyPointers)
        return std::nullopt;
    return NextTest{fmt::format("Code {} only asks to read other codes.", pointers.front()->text),
                    "Read the transmission controller's own codes, and keep the freeze frames.",
                    "What it has stored shows where to look; nothing there leaves the complaint."};
}

/// Gates first, then the debris, then the chain from solenoid to clutch.
NextTest choose(const Facts& facts, const SuggestionModel& model) {
    for (const auto ask : {lookAtPieces, lookForWater, tellHowItDrives, readCodes, readOtherModules,
                           checkLevel, measureSupply})
        if (auto test = ask(facts))
            return *test;
    if (auto test = measureCircuits(facts, model))
        return *test;
    for (const auto ask : {checkSensors, lookAtDebris, testInside})
        if (auto test = ask(facts))
            return *test;
    return lastTest(facts);
}

} // namespace

Draft oneNextTest(const Facts& facts, const SuggestionModel& model) {
    const NextTest next = choose(facts, model);
    Draft draft(Recommendation::notEnoughEvidence);
    draft.because("one_next_test", Strength::decisive, next.why);
    const std::string told = facts.symptoms.inWords();
    if (!told.empty())
        draft.because("one_next_test", Strength::some,
                      fmt::format("So far the drive shows only this: {}.", told));
    const bool levelOff = facts.level != nullptr && !facts.levelRight();
    draft.checkFirst((levelOff ? "Put the fluid level right first. " : "") + next.test,
                     next.hazards);
    draft.s.promises = next.promises;
    draft.wouldChange(next.answers);
    return draft;
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/next_test.h"
#include "judgement/promises.h"
#include "judgement/rules.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

bool hydraulicComplaint(const SymptomFacts& s) {
    return s.slips() || !s.badShifts.empty() || s.overheats || s.noise || s.shudder ||
           s.has(CodeFamily::pressure);
}

MaybeTest lookAtPieces(const Facts& facts) {
    const DebrisFacts& d = *facts.debris;
    const bool feltAlone = d.feel == Feel::felt && !d.anyMetal();
    if (!d.undecidedLarge && !feltAlone)
        return std::nullopt;
    return NextTest{
        feltAlone ? "Something can be felt, and what can be felt is no wear dust."
                  : "There are large pieces of which the photo does not show what they are.",
        "Dry the pieces on paper, pass a magnet under it and squeeze the largest in the "
        "pliers: what moves is steel, what bends is aluminium or brass, what crumbles "
        "is lining.",
        "Metal of that size means opening; lining or plastic points elsewhere.",
        {Hazard::magnets}};
}

MaybeTest lookForWater(const Facts& facts) {
    if (!facts.debris->waterOpen())
        return std::nullopt;
    return NextTest{
        facts.debris->rust->sentence + " Water was in there, and nobody has said whether the "
                                       "fluid is milky.",
        "Look at the drained fluid in a clear glass, milky or pink, and for oil in the coolant "
        "tank.",
        "Milky: coolant or water is inside, and the transmission has to be opened. Clear, with "
        "clean coolant: the rust is old, and the search goes on.",
        {},
        promises::fluidLookedAt()};
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

/// A pointer asks to read other codes; one of the network says that modules do not hear each other.
MaybeTest readOtherModules(const Facts& facts) {
    const SymptomFacts& s = facts.symptoms;
    const auto pointers = s.ofFamily(CodeFamily::pointer);
    const bool onlyPointers = !pointers.empty() && pointers.size() == s.codes.size();
    const auto network = std::find_if(s.codes.begin(), s.codes.end(), [](const TroubleCode& code) {
        return code.text.starts_with('U');
    });
    if (network != s.codes.end() && facts.foundGood.empty())
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

/// Circuits that fail are measured at their supply before the pan is taken off.
MaybeTest measureSupply(const Facts& facts) {
    const auto circuits = facts.symptoms.circuits();
    const bool looked = std::any_of(
        facts.findings->outside.begin(), facts.findings->outside.end(), [](const OutsideCheck& c) {
            return c.item == OutsideItem::supply || c.item == OutsideItem::connector ||
                   c.item == OutsideItem::earth || c.item == OutsideItem::harness;
        });
    const bool coilRead = std::any_of(circuits.begin(), circuits.end(), [&](const auto* code) {
        const SolenoidVerdict* v = facts.solenoidOf(*code);
        return v != nullptr && (v->state != SolenoidState::untested || v->circuitBad);
    });
    if (circuits.empty() || looked || coilRead || facts.debris->inspected)
        return std::nullopt;
    return NextTest{
        fmt::format(
            "Code {} says that the current was wrong, and nobody has looked at what feeds it.",
            circuits.front()->text),
        "Measure supply and earth at the transmission's connector under load, look for oil and "
        "bent pins in it, then measure each coil at the connector, with the temperature.",
        "Low volts or a bad pin lies outside; a coil that is bad there is measured again at its "
        "own "
        "pins.",
        {Hazard::ignition}};
}

MaybeTest checkSensors(const Facts& facts) {
    const auto inputs = facts.symptoms.ofFamily(CodeFamily::input);
    if (inputs.empty() || !facts.foundGood.empty())
        return std::nullopt;
    return NextTest{
        fmt::format("Code {} names a signal: {}.", inputs.front()->text, inputs.front()->meaning),
        "Check that sensor's connector and signal, and clean the fines off its tip.",
        "A sensor at fault lies outside the unit; a good one sends the search inside."};
}

/// The solenoid was exchanged, and its circuit code is there all the same.
NextTest circuitOfANewPart(const TroubleCode& code) {
    return {
        fmt::format("Solenoid {} has been exchanged already, and code {} is there all the same.",
                    code.solenoid, code.text),
        "Load-test supply, earth, connector and harness of that circuit, and measure the current "
        "that the control unit drives.",
        "A wrong feed or current lies outside; a right one leaves the new part and what it moves.",
        {Hazard::ignition}};
}

MaybeTest measureCircuits(const Facts& facts, const SuggestionModel& model) {
    const auto circuits = facts.symptoms.circuits();
    if (circuits.empty())
        return std::nullopt;
    const bool hotOnly = facts.symptoms.onlyHot || circuits.front()->intermittent;
    for (const TroubleCode* code : circuits) {
        const SolenoidVerdict* v = facts.solenoidOf(*code);
        const bool coilRead = v != nullptr && v->state >= SolenoidState::coilGood;
        if (facts.doneInVain("solenoid " + (v != nullptr ? v->name : code->solenoid)))
            return circuitOfANewPart(*code);
        if (coilRead && hotOnly && !v->hotTested)
            return NextTest{fmt::format("Code {} comes only when it is hot, and the coil was only "
                                        "measured cold.",
                                        code->text),
                            "Measure the coil again at 80 to 100 C.",
                            "A coil that opens hot is replaced; one that holds sends you to the "
                            "harness.",
                            {Hazard::ignition}};
        if (!coilRead && static_cast<int>(circuits.size()) >= model.sharedFeedFrom)
            return NextTest{fmt::format("{} circuits fail at once, and neither supply nor coils "
                                        "have been measured.",
                                        circuits.size()),
                            "Measure supply and earth at the transmission's connector under load, "
                            "then each coil at the pins.",
                            "Low voltage or a bad pin lies outside; coils out of band lie inside.",
                            {Hazard::ignition}};
        if (v != nullptr && v->circuitBad)
            return NextTest{
                v->sentence,
                fmt::format("Measure the coil of solenoid {} at its own pins, {}.", v->name,
                            hotOnly ? "cold and at 80 to 100 C" : "with the temperature"),
                "Bad there too: replace the solenoid. Good: the harness.",
                {Hazard::ignition, Hazard::lowOhmCoil},
                promises::coilAtItsPins(facts, v->name, hotOnly)};
        if (!coilRead)
            return NextTest{
                fmt::format("Code {} says that the current was wrong, not where.", code->text),
                hotOnly
                    ? "Ignition off, measure the coil at the case connector and then at its own "
                      "pins, cold and at 80 to 100 C."
                    : "Ignition off, measure the coil at the case connector and then at its own "
                      "pins, with the temperature.",
                hotOnly ? "Bad at both: replace the solenoid. Good at the coil, hot as well: the "
                          "harness."
                        : "Bad at both: replace the solenoid. Good at the coil: the harness.",
                {Hazard::ignition, Hazard::lowOhmCoil},
                promises::coilAtItsPins(facts, v != nullptr ? v->name : code->solenoid, hotOnly)};
    }
    return std::nullopt;
}

MaybeTest lookAtDebris(const Facts& facts) {
    if (facts.debris->inspected)
        return std::nullopt;
    if (!facts.debris->retake.empty())
        return NextTest{"No photo of the debris could be measured.", facts.debris->retake,
                        "Only fines allow cleaning; pieces that can be felt do not."};
    return NextTest{
        "Nobody has looked at the debris.",
        "Take the pan off; look at floor, magnet and filter before anything is cleaned, "
        "and rub the paste between gloved fingers.",
        "Only fines allow cleaning; pieces that can be felt do not."};
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
    Draft draft(Outcome::notEnoughEvidence);
    draft.because("one_next_test", Strength::decisive, next.why);
    const std::string told = facts.symptoms.inWords();
    if (!told.empty())
        draft.because("one_next_test", Strength::some,
                      fmt::format("So far there is only: {}.", told));
    draft.checkFirst(next.test, next.hazards);
    draft.s.promises = next.promises;
    draft.wouldChange(next.answers);
    return draft;
}

} // namespace swarfbook

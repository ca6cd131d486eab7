// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/shown_units.h"
#include "judgement/debris_items.h"
#include "judgement/metal_traced.h"
#include "judgement/next_test.h"
#include "judgement/plastic_part.h"
#include "judgement/promises.h"
#include "judgement/rules.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

/// A magnet was passed under the pieces and they stayed: they are not steel, and nothing more is
/// known.
bool staysAndNotSqueezed(const Facts& facts) {
    const VisitFindings& f = *facts.findings;
    return f.squeeze.empty() && !f.magnet.empty() &&
           std::all_of(f.magnet.begin(), f.magnet.end(),
                       [](const MagnetTest& test) { return test.result == MagnetMoves::stays; });
}

NextTest afterAllTraces(const DebrisFacts& d) {
    const DebrisItem* metal = d.nonMagnetic != nullptr ? d.nonMagnetic
                              : d.yellow != nullptr    ? d.yellow
                                                       : d.steel;
    return {(metal != nullptr ? metal->sentence : d.coatSentence) +
                " That is more than dust, and there is no other evidence.",
            "Clean pan and magnet, fit a new filter, drive it " + distanceRange(50.0, 150.0) +
                " and look again.",
            "If as much is found again, or it makes a noise, open it. If hardly any is found, the "
            "debris was old: look again at the next service.",
            {Hazard::slivers}};
}

/// Those of the filter, the feel of the debris and the road test that are still to be done.
NextTest restOfTheTrace(const Facts& facts) {
    const DebrisFacts& d = *facts.debris;
    const std::string why = d.coat == Coat::f4
                                ? d.coatSentence
                                : "There is more metal than specks, and nothing is heard or felt "
                                  "in driving.";
    const char* answers = "Pieces there that can be felt: more than wear. Only dust: clean, and "
                          "look again soon.";
    if (!d.placeSeen(Where::filter))
        return {why,
                d.feel ? "Cut the filter open and spread it."
                       : "Cut the filter open and spread it; rub the magnet's paste between gloved "
                         "fingers.",
                answers,
                {Hazard::slivers, Hazard::magnets}};
    if (!d.feel)
        return {why,
                "Rub the debris of filter and magnet between gloved fingers.",
                answers,
                {Hazard::slivers, Hazard::magnets}};
    if (!facts.symptoms.driveTold)
        return {why + " How it drives is not recorded.",
                "Drive it, cold and hot, through every gear, and listen.",
                "A noise or a slip: open it. Neither: clean, and look again soon.",
                {Hazard::roadTest}};
    return afterAllTraces(d);
}

MaybeTest splitBrightMetal(const Facts& facts) {
    const DebrisItem* bright = facts.debris->steel;
    if (bright == nullptr || !inQuantity(*bright) || bright->magnetic != Ferrous::notKnown)
        return std::nullopt;
    return NextTest{bright->sentence + " Whether it is steel or aluminium is not known.",
                    "Degrease and dry it on paper, and pass a magnet under the paper.",
                    "What moves is steel, from plates, gears or bearings; what stays is aluminium, "
                    "from converter, pump or case.",
                    {Hazard::magnets}};
}

MaybeTest traceMetal(const Facts& facts) {
    const DebrisFacts& d = *facts.debris;
    if (d.yellow != nullptr && !facts.endPlay)
        return NextTest{d.yellow->sentence + " Nothing else speaks yet.",
                        "Measure the end play and listen for a whine gear by gear.",
                        "Too much play or a whine: open it. In order: clean and look again soon.",
                        {Hazard::hoist},
                        promises::endPlayMeasured()};
    if (d.nonMagnetic != nullptr && !facts.converterDrainDirty)
        return NextTest{d.nonMagnetic->sentence +
                            " It is not magnetic, and there is no other evidence.",
                        "Drain the converter through white paper and look at what comes.",
                        "Bright there too: the converter. Clean: pump or case, cut the filter."};
    if (d.anyMetal() || d.coat == Coat::f4)
        return restOfTheTrace(facts);
    return std::nullopt;
}

MaybeTest traceLining(const Facts& facts) {
    const DebrisFacts& d = *facts.debris;
    if (d.friction < Friction::heavy || (facts.adaptation && facts.converterDrainDirty))
        return std::nullopt;
    return NextTest{d.lining->sentence + " Yet it does not slip: the converter clutch or the "
                                         "adaptation may be hiding it.",
                    facts.adaptation ? "Drain the converter through white paper and look."
                    : facts.converterDrainDirty
                        ? "Read the adaptive pressures and fill volumes."
                        : "Read the adaptive pressures and fill volumes, then look "
                          "at the converter's drain.",
                    "A clutch at its limit: open it. The converter's drain full of lining: the "
                    "converter."};
}

MaybeTest traceSoftDebris(const Facts& facts) {
    const DebrisFacts& d = *facts.debris;
    if (d.plasticNeedsSource)
        return findThePlastic(d);
    if (d.rubber != nullptr && facts.holdingElements.empty())
        return NextTest{d.rubber->sentence + " A seal is losing its edge.",
                        "Air-check every clutch and brake at its port, valve body off.",
                        "One leaks: open it. All hold: clean, and look again soon.",
                        {Hazard::compressedAir}};
    if (facts.wipedWithoutRecord && !d.placeSeen(Where::filter))
        return NextTest{"The evidence was wiped away lately, so a clean pan clears nothing.",
                        facts.converterDrainDirty
                            ? "Cut the filter open and spread it."
                            : "Cut the filter open and drain the converter through white paper.",
                        "Clean there as well: look again soon. Debris there: it counts in full."};
    return std::nullopt;
}

} // namespace

MaybeTest lookAtPieces(const Facts& facts) {
    const DebrisFacts& d = *facts.debris;
    const bool feltAlone = d.feel == Feel::felt && !d.anyMetal() && d.friction < Friction::pieces;
    if (!d.unidentifiedLarge && !feltAlone)
        return std::nullopt;
    const std::string why =
        feltAlone ? "Something can be felt, so it is not wear dust."
                  : "There are large pieces of which the photo does not show what they are.";
    if (staysAndNotSqueezed(facts))
        return NextTest{why + " A magnet does not take it.",
                        "Squeeze the largest piece in the pliers.",
                        "What bends or breaks is metal, and metal of that size means opening; what "
                        "crumbles is lining."};
    return NextTest{
        why,
        "Dry the pieces on paper, pass a magnet under it and squeeze the largest in the "
        "pliers: what moves is steel, what bends is aluminium or brass, what crumbles "
        "is lining.",
        feltAlone ? "Metal: where it comes from has to be found. Lining: clutches give it off."
                  : "Metal of that size means opening; lining or plastic points elsewhere.",
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

MaybeTest lookAtDebris(const Facts& facts) {
    if (facts.debris->inspected)
        return std::nullopt;
    const bool told = facts.symptoms.anyBad() || facts.symptoms.anyCode();
    const char* answers =
        told ? "Only fines: solenoids, bores and clutches are tested next. Metal that can be felt, "
               "or lining in quantity: the damage is inside."
             : "Only fines allow cleaning; pieces that can be felt do not.";
    if (!facts.debris->retake.empty())
        return NextTest{"No photo of the debris could be measured.", facts.debris->retake, answers};
    return NextTest{
        "Nobody has looked at the debris.",
        "Take the pan off; look at floor, magnet and filter before anything is cleaned, "
        "and rub the paste between gloved fingers.",
        answers};
}

MaybeTest followDebris(const Facts& facts) {
    for (const auto ask : {splitBrightMetal, traceMetal, traceLining, traceSoftDebris})
        if (auto test = ask(facts))
            return test;
    return std::nullopt;
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/shown_units.h"
#include "judgement/debris_items.h"
#include "judgement/rules.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

bool isRepair(Recommendation outcome) {
    return outcome == Recommendation::replaceSolenoids || outcome == Recommendation::repairBores ||
           outcome == Recommendation::replaceValveBody;
}

/// Debris that the outcome does not cover, or that is evidence against it.
void debrisAgainst(const Facts& facts, Draft& draft) {
    const DebrisFacts& d = *facts.debris;
    const Recommendation outcome = draft.s.outcome;
    if (outcome == Recommendation::openTheTransmission) {
        if (d.inspected && !d.anyMetal() && d.friction <= Friction::silt)
            draft.but("against", Strength::clear, "The debris itself shows only fines.");
        else if (d.coat && *d.coat <= Coat::f1)
            draft.but("against", Strength::light, "The fuzz on the pan's magnet is thin.");
        else if (d.coat == Coat::f2)
            draft.but(
                "against", Strength::light,
                "The fuzz on the pan's magnet is not so thick that it hides the magnet's outline.");
        return;
    }
    if (outcome == Recommendation::notEnoughEvidence)
        return;
    if (d.friction >= Friction::heavy)
        draft.but("against", Strength::clear,
                  d.lining->sentence + " This step does not cure that.");
    if (outcome != Recommendation::cleanAndRefit)
        for (const DebrisItem* metal : {d.stopMetal, d.yellow, d.nonMagnetic, d.steel})
            if (metal != nullptr)
                draft.but("against", Strength::fair,
                          metal->sentence + " This step does not clear that.");
    if (d.coat && *d.coat >= Coat::f3 && outcome == Recommendation::cleanAndRefit)
        draft.but("against", Strength::some, d.coatSentence);
    if (d.burntSmell)
        draft.but("against", Strength::some, "The fluid smells burnt.");
    if (d.rust != nullptr && !d.milky)
        draft.but("water_rust", d.milkyTold ? Strength::moderate : Strength::good,
                  d.rust->sentence + (d.milkyTold ? " Water was in there, though the fluid is not "
                                                    "milky now."
                                                  : " Water was in there, and nobody has said "
                                                    "whether the fluid is milky."));
    if (d.feel == Feel::felt && outcome != Recommendation::cleanAndRefit)
        draft.but("against", Strength::moderate, "Something can be felt in the debris.");
}

void metalAgainstCleaning(const Facts& facts, Draft& draft) {
    const DebrisFacts& d = *facts.debris;
    for (const DebrisItem* metal : {d.yellow, d.nonMagnetic, d.steel})
        if (metal != nullptr)
            draft.but("against", Strength::moderate,
                      metal->sentence + " If more comes, it is more than a little.");
    for (const BoreVerdict& bore : facts.bores.each)
        if (bore.state >= BoreState::marginal)
            draft.but("against", Strength::some, bore.sentence).about(bore.name);
    for (const SolenoidVerdict* v : facts.suspectSolenoids())
        draft.but("against", Strength::some, v->sentence).about(v->name);
    if (facts.symptoms.harshOrLate)
        draft.but("against", Strength::slight, "It does not shift quite as it should.");
    if (facts.sinceClean && d.coat && *d.coat <= Coat::f1)
        return;
    if (!facts.sinceClean)
        draft.but("against", Strength::faint,
                  "It is not known over which distance this debris has gathered.");
}

/// Control parts that have to be cleared before an expensive step is certain.
void controlAgainstOpening(const Facts& facts, Draft& draft) {
    if (draft.s.outcome != Recommendation::openTheTransmission)
        return;
    if (!facts.symptoms.anyBad() && facts.symptoms.driveTold)
        draft.but("against", Strength::fair, "It still drives without complaint.");
    if (draft.s.doNotDrive)
        return; // the control side cannot outweigh it
    if (facts.solenoids.each.empty())
        draft.but("not_looked", Strength::some, "The solenoids have not been tested.");
    else if (!facts.boresTested())
        draft.but("not_looked", Strength::light, "The valve-body bores have not been tested.");
    for (const SolenoidVerdict* v : facts.provenSolenoids())
        draft.but("solenoid_proven", Strength::good, v->sentence).about(v->name);
    for (const BoreVerdict* bore : facts.failingBores())
        draft.but("bore_leaks", Strength::good, bore->sentence).about(bore->name);
    if (facts.symptoms.codesRead && !facts.symptoms.anyCode())
        draft.but("against", Strength::slight, "No code is stored.");
}

void partsAgainst(const Facts& facts, Draft& draft) {
    if (!isRepair(draft.s.outcome))
        return;
    if (!facts.boresTested())
        draft.but("not_looked", Strength::slight, "The valve-body bores have not been tested.");
    if (facts.level == nullptr && facts.symptoms.slips())
        draft.but("not_looked", Strength::faint, "The fluid level as it came in is not recorded.");
    if (draft.s.outcome == Recommendation::replaceSolenoids && facts.debris->coat &&
        *facts.debris->coat >= Coat::f2)
        draft.but("against", Strength::faint,
                  "There are fines in the unit, and what a new solenoid swallows "
                  "will stick it again unless everything is cleaned.");
    for (const SolenoidVerdict& v : facts.solenoids.each)
        if (v.coilFault && v.swap == SwapResult::stays)
            draft.but("against", Strength::some, "The fault stayed where it was at the exchange.");
}

void trendReasons(const Facts& facts, Draft& draft) {
    if (!facts.change)
        return;
    const TypeChange& all = facts.change->changes.front();
    const bool rises = all.proven && all.comparison.low > 1.0;
    const std::string sentence =
        "Since visit " + std::to_string(facts.change->before) + ": " + facts.change->sentence;
    const bool cheap = draft.s.outcome <= Recommendation::repairBores;
    if (rises || facts.change->stepUpInSize) {
        if (cheap)
            draft.but("trend_rise", Strength::good, sentence);
        else
            draft.because("trend_rise", Strength::light, sentence);
    } else if (draft.s.outcome == Recommendation::cleanAndRefit) {
        draft.because("trend_flat", Strength::light, sentence);
    }
}

void coolerReasons(const Facts& facts, Draft& draft) {
    Suggestion& s = draft.s;
    const bool work = s.outcome != Recommendation::notEnoughEvidence;
    if (facts.coolerFlowLow == true && work) {
        s.cooler = true;
        s.coolerWhy = facts.coolerSentence.empty()
                          ? std::string("Its flow is low.")
                          : facts.coolerSentence + ", which is too little.";
        draft.because("cooler_flow", Strength::moderate, s.coolerWhy);
    }
    if (facts.sinceRebuild && facts.coolerFlushed == false &&
        s.outcome == Recommendation::openTheTransmission)
        draft.because("no_flush", Strength::nearlyDecisive,
                      fmt::format("It was rebuilt {} ago and no flush of the cooler is on "
                                  "record: old debris that was left in it is the usual cause of a "
                                  "comeback.",
                                  distanceWords(facts.sinceRebuild->value())));
    else if (facts.sinceRebuild && s.outcome == Recommendation::openTheTransmission)
        draft.because("no_flush", Strength::light,
                      fmt::format("It was rebuilt only {} ago: look for the cause and for "
                                  "the warranty.",
                                  distanceWords(facts.sinceRebuild->value())));
}

void listUnknown(const Facts& facts, Suggestion& s) {
    for (const std::string& what : facts.notInspected)
        s.notKnown.push_back("Not inspected: " + what + ".");
    if (!facts.debris->inspected)
        s.notKnown.emplace_back("The debris has not been looked at.");
    if (!facts.symptoms.driveTold)
        s.notKnown.push_back(facts.customersWords.empty()
                                 ? "How it drives is not recorded."
                                 : "How it drives is recorded only in the customer's words: \"" +
                                       facts.customersWords + "\".");
    if (!facts.symptoms.codesRead)
        s.notKnown.emplace_back("The codes have not been read.");
    if (facts.level == nullptr)
        s.notKnown.emplace_back("The fluid level as it came in is not recorded.");
    if (!facts.sinceClean)
        s.notKnown.emplace_back("The distance since the last documented clean is not known.");
    if (facts.debris->inspected && facts.debris->anyMetal()) {
        const DebrisItem* steel = facts.debris->steel;
        if (steel != nullptr && steel->magnetic == Ferrous::notKnown)
            s.notKnown.emplace_back("Whether the bright metal is magnetic has not been tried.");
    }
    for (const std::string& line : facts.debris->notKnown)
        s.notKnown.push_back(line);
    if (facts.debris->nearBorder)
        s.notKnown.emplace_back(
            "Whether the large metal pieces are \"plenty\" is borderline: another photo could say "
            "otherwise.");
    if (!facts.change && !facts.noComparison.empty())
        s.notKnown.push_back("No comparison with an earlier visit: " + facts.noComparison);
}

/// Debris on the filter's clean side went through or past the media, towards pump, solenoids and
/// bores: no debris is stronger evidence for trouble there.
void pastTheFilter(const Facts& facts, Draft& draft) {
    for (const DebrisItem& item : facts.debris->items) {
        if (item.place != Where::filterCleanSide || isFine(item) || item.what == DebrisKind::lint)
            continue;
        const std::string sentence =
            item.sentence + " It went past the filter, towards the solenoids and the bores.";
        if (isRepair(draft.s.outcome))
            draft.because("past_the_filter", Strength::moderate, sentence);
        else if (draft.s.outcome == Recommendation::cleanAndRefit)
            draft.but("past_the_filter", Strength::fair, sentence);
        return;
    }
}

} // namespace

void addFurtherReasons(const Facts& facts, Draft& draft) {
    debrisAgainst(facts, draft);
    if (draft.s.outcome == Recommendation::cleanAndRefit)
        metalAgainstCleaning(facts, draft);
    controlAgainstOpening(facts, draft);
    partsAgainst(facts, draft);
    pastTheFilter(facts, draft);
    trendReasons(facts, draft);
    coolerReasons(facts, draft);
    if (draft.s.outcome == Recommendation::outsideTheUnit && !facts.debris->inspected)
        draft.but("not_looked", Strength::faint, "The debris has not been looked at.");
    listUnknown(facts, draft.s);
}

} // namespace swarfbook

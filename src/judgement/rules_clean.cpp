// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/debris_items.h"
#include "judgement/flush_words.h"
#include "judgement/metal_traced.h"
#include "judgement/plastic_part.h"
#include "judgement/rules.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

/// The complaint is mild at most, and somebody checked.
bool silent(const Facts& facts) {
    const SymptomFacts& s = facts.symptoms;
    const bool onlyPointers =
        !s.codes.empty() && s.ofFamily(CodeFamily::pointer).size() == s.codes.size();
    const bool onlyFluidCode = std::all_of(s.codes.begin(), s.codes.end(), [](const auto& code) {
        return code.family == CodeFamily::pointer || code.text == "P0897";
    });
    const bool fluidCodeOnly = onlyFluidCode && s.anyCode();
    const bool slipsBeyondCode = s.slipsInDefinedGears() || s.slipInGeneral || s.noDrive;
    const bool bad = fluidCodeOnly ? slipsBeyondCode || !s.badShifts.empty() || s.shudder ||
                                         s.failSafe || s.wrongGear || s.noise
                                   : s.anyBad();
    return (s.driveTold || s.codesRead) && !bad && onlyFluidCode && !onlyPointers;
}

/// A thick coat alone is normal wear over time, not damage, if nothing in it can be felt.
bool coatAllows(const DebrisFacts& d) {
    if (!d.coat || *d.coat <= Coat::f3)
        return true;
    return d.feel == Feel::smears || d.feel == Feel::notFelt;
}

/// The few pieces seen explain what is felt.
bool feelAllows(const Facts& facts) {
    const DebrisFacts& d = *facts.debris;
    const bool felt = d.feel == Feel::felt || d.feel == Feel::grit;
    return !felt || ((d.steel != nullptr || d.yellow != nullptr || d.nonMagnetic != nullptr) &&
                     metalMayBeCleaned(facts));
}

bool evidenceWiped(const Facts& facts) {
    return facts.wipedWithoutRecord && !facts.debris->placeSeen(Where::filter) &&
           facts.converterDrainDirty != false;
}

/// Bright metal for which nobody entered whether a magnet takes it, or how large it is.
bool magnetismAndSizeKnown(const DebrisFacts& d) {
    return std::none_of(d.items.begin(), d.items.end(), [](const DebrisItem& item) {
        const bool metal =
            item.what == DebrisKind::brightMetal || item.what == DebrisKind::yellowMetal;
        return metal && (!item.size || (item.what == DebrisKind::brightMetal &&
                                        item.magnetic == Ferrous::notKnown));
    });
}

bool doubtful(const Facts& facts) {
    const DebrisFacts& d = *facts.debris;
    const bool rise = facts.change && (facts.change->stepUpInSize ||
                                       (facts.change->changes.front().proven &&
                                        facts.change->changes.front().comparison.low > 1.0));
    const bool flakes =
        d.steel != nullptr && (d.steel->amount == Amount::plenty ||
                               d.steel->size.value_or(TradeSize::s1) >= TradeSize::s2);
    return rise || flakes || d.yellow != nullptr || d.nonMagnetic != nullptr ||
           d.feel == Feel::grit || d.feel == Feel::felt || d.rubber != nullptr ||
           d.rust != nullptr || d.nearBorder || !magnetismAndSizeKnown(d) ||
           facts.wipedWithoutRecord || facts.symptoms.harshOrLate || d.burntSmell ||
           !facts.suspectSolenoids().empty() || d.friction >= Friction::heavy ||
           d.plasticPart != PlasticPart::notSaid;
}

/// The rule by which metal is cleaned away, and its sentence.
struct WhyCleaned {
    const char* rule;
    const char* sentence;
};

WhyCleaned whyCleaned(const Facts& facts) {
    if (tracedToNothing(facts))
        return {"traced_to_nothing", " Its possible sources were checked and nothing was found: it "
                                     "is cleaned away and looked for again soon."};
    if (onlyAFewMetal(*facts.debris))
        return {"few_specks", " So little, with nothing heard or felt in driving, is cleaned away "
                              "and looked for again."};
    return {"steel_specks", " Specks as small as that, of steel, with nothing heard or felt in "
                            "driving, are cleaned away and looked for again."};
}

void explainDebris(const Facts& facts, Draft& draft) {
    const DebrisFacts& d = *facts.debris;
    if (d.onlyFines())
        draft.because("fines_only", Strength::strong,
                      d.leftOvers.empty()
                          ? "There are only fines, which is what normal wear leaves."
                          : "Apart from what is left from manufacture the debris is fines, which "
                            "normal wear leaves.");
    const WhyCleaned why = whyCleaned(facts);
    for (const DebrisItem* metal : {d.yellow, d.nonMagnetic, d.steel})
        if (metal != nullptr)
            draft.because(why.rule, Strength::firm, metal->sentence + why.sentence);
    for (const std::string& sentence : d.contradicted)
        draft.because("hand_outranks_photo", Strength::good, sentence);
    if (d.coat && *d.coat >= Coat::f3)
        draft.because("thick_coat", Strength::clear,
                      d.coatSentence + " A thick paste gathers over a long distance and is no "
                                       "damage by itself.");
    for (const DebrisItem& item : d.leftOvers)
        draft.because("left_overs", Strength::firm,
                      item.sentence + " It is left from manufacture and harmless.");
    if (const std::string part = plasticPartOutside(d); !part.empty())
        draft.because("plastic_part", Strength::strong,
                      fmt::format("{} It broke off the {}, which is renewed with the pan off.",
                                  d.plastic->sentence, part));
    if (d.plasticPart == PlasticPart::notFound)
        draft.but("plastic_part", Strength::moderate,
                  d.plastic->sentence + " What it broke off was not found.");
    if (d.feel == Feel::smears || d.feel == Feel::notFelt)
        draft.because("fines_only", Strength::fair, "Rubbed out, nothing can be felt.");
}

Draft cleaned(const Facts& facts, const SuggestionModel& model) {
    Draft draft(Recommendation::cleanAndRefit);
    draft.because("no_symptom", Strength::decisive,
                  facts.symptoms.driveTold
                      ? facts.symptoms.harshOrLate ? "It drives with no more than mild oddness."
                                                   : "It drives and shifts well."
                      : "No code is stored, and nobody complains of how it drives.");
    explainDebris(facts, draft);
    const bool thick = facts.debris->coat && *facts.debris->coat >= Coat::f3;
    draft.s.recheckAfter = doubtful(facts) ? model.recheckDoubtful
                           : thick         ? model.recheckThick
                                           : model.recheckUsual;
    draft.wouldChange(facts.debris->anyMetal()
                          ? "More of it at the next look, a noise, or a slip."
                          : "Any piece that can be felt or seen singly, or a slip.");
    return draft;
}

/// Lint or sealant from earlier work in a narrow place, with a complaint it can cause.
MaybeDraft earlierWork(const Facts& facts, const SuggestionModel& model) {
    const DebrisFacts& d = *facts.debris;
    const SymptomFacts& s = facts.symptoms;
    const bool canCause = !s.performances().empty() || !s.badShifts.empty() || s.harshOrLate ||
                          s.slips() || s.has(CodeFamily::pressure) || facts.pressureLowEverywhere ||
                          facts.pressureLowInRange;
    if (d.earlierWork == nullptr || !canCause || !d.onlyFinesOrSpecks() ||
        (s.noise && d.anyMetal()))
        return std::nullopt;
    Draft draft(Recommendation::cleanAndRefit);
    draft.because("earlier_work", Strength::decisive,
                  d.earlierWork->sentence + " It comes from earlier work and blocks fine screens "
                                            "and passages.");
    draft.because("symptoms_agree", Strength::clear,
                  fmt::format("That can cause the complaint: {}.", s.inWords()));
    draft.s.recheckAfter = model.recheckDoubtful;
    draft.wouldChange(
        "If it persists once screens and passages are clean, test solenoid and bore.");
    return draft;
}

/// A filter neck or seal through which the pump draws air, with a complaint that air can cause.
MaybeDraft filterDrawsAir(const Facts& facts, const SuggestionModel& model) {
    const DebrisFacts& d = *facts.debris;
    const SymptomFacts& s = facts.symptoms;
    const bool canCause = s.slips() || s.harshOrLate || s.whine || facts.pressureLowEverywhere ||
                          s.has(CodeFamily::pressure);
    if (!facts.filterNeckBad || !canCause || !d.onlyFinesOrSpecks() || d.feel == Feel::felt ||
        (s.noise && d.anyMetal()))
        return std::nullopt;
    Draft draft(Recommendation::cleanAndRefit);
    draft.because("filter_draws_air", Strength::decisive, facts.filterNeckSentence);
    draft.because("filter_draws_air", Strength::clear,
                  fmt::format("Air in the pump can cause the complaint: {}.",
                              s.inWords().empty() ? "a low pressure" : s.inWords()));
    draft.s.recheckAfter = model.recheckDoubtful;
    draft.wouldChange(fmt::format(
        "If it persists with a new seal, a filter that sits right and the "
        "level right, {}.",
        facts.pressureLowEverywhere ? "test the main regulator's bore and the line pressure "
                                      "solenoid"
                                    : "measure the pressure in every range"));
    return draft;
}

/// Pressure that falls while driving: the filter lets too little through.
MaybeDraft filterRestricted(const Facts& facts, const SuggestionModel& model) {
    if (!facts.pressureDrops || !facts.debris->onlyFinesOrSpecks() || facts.symptoms.noise)
        return std::nullopt;
    Draft draft(Recommendation::cleanAndRefit);
    draft.because("filter_restricted", Strength::decisive,
                  "The pressure falls slowly while it runs, which a "
                  "restricted filter does.");
    draft.because("fines_only", Strength::fair, "The debris itself gives no cause to look deeper.");
    draft.s.recheckAfter = model.recheckDoubtful;
    draft.wouldChange("A pressure that still falls with a new filter and the right level.");
    return draft;
}

/// The sentence from the flush log of a solenoid that came clean.
void addFlush(const Facts& facts, const SolenoidVerdict& v, Draft& draft) {
    const FlushOfPart* flush = facts.flushOf(v);
    if (flush == nullptr)
        return;
    const FlushVerdict verdict = flush->series.decay.verdict;
    if (verdict == FlushVerdict::clean || verdict == FlushVerdict::nothingCame)
        draft.because("flush_decline", Strength::fair, flushVerdictSentence(*flush)).about(v.name);
    else
        draft.but("flush_decline", Strength::fair, flushVerdictSentence(*flush)).about(v.name);
    const auto& demagnetising = flush->series.demagnetising;
    if (demagnetising && demagnetising->against == PassAgainstPass::more)
        draft.because("flush_decline", Strength::slight, demagnetisingSentence(*flush))
            .about(v.name);
}

/// A solenoid that was worse than its siblings and is as good as they are once flushed goes back
/// in.
MaybeDraft solenoidCameClean(const Facts& facts, const SuggestionModel& model) {
    const DebrisFacts& d = *facts.debris;
    const SymptomFacts& s = facts.symptoms;
    if (!d.onlyFinesOrSpecks() || d.feel == Feel::felt || s.noise ||
        !facts.failingBores().empty() || !facts.leakingElements.empty() ||
        !facts.suspectSolenoids().empty())
        return std::nullopt;
    Draft draft(Recommendation::cleanAndRefit);
    for (const SolenoidVerdict& v : facts.solenoids.each)
        if (v.cameClean) {
            draft.s.which.push_back("solenoid " + v.name);
            draft.because("solenoid_came_clean", Strength::decisive, v.sentence).about(v.name);
            addFlush(facts, v, draft);
        }
    if (draft.s.which.empty())
        return std::nullopt;
    draft.agreesWithControl(s, Strength::clear);
    draft.s.recheckAfter = model.recheckDoubtful;
    draft.wouldChange(
        "If it comes back, test the bore behind it before the solenoid is exchanged.");
    return draft;
}

} // namespace

MaybeDraft cleanAndRefit(const Facts& facts, const SuggestionModel& model) {
    const DebrisFacts& d = *facts.debris;
    if (!d.inspected || facts.doneInVain(Recommendation::cleanAndRefit))
        return std::nullopt;
    if (auto draft = solenoidCameClean(facts, model))
        return draft;
    if (auto draft = earlierWork(facts, model))
        return draft;
    if (auto draft = filterDrawsAir(facts, model))
        return draft;
    if (auto draft = filterRestricted(facts, model))
        return draft;
    const bool frictionAllows =
        d.friction < Friction::heavy ||
        (facts.adaptation == Adaptation::normal && facts.converterDrainDirty == false);
    const bool pressureAllows = !facts.pressureLowEverywhere && !facts.pressureLowInRange;
    if (!silent(facts) || !metalMayBeCleaned(facts) || !coatAllows(d) || !feelAllows(facts) ||
        !frictionAllows || d.plasticNeedsSource || evidenceWiped(facts) || !pressureAllows ||
        d.milky || d.waterOpen() ||
        (d.rubber != nullptr && facts.symptoms.harshOrLate && facts.holdingElements.empty()) ||
        facts.endPlay == EndPlay::excess || !facts.leakingElements.empty() ||
        facts.converterDrainDirty == true)
        return std::nullopt;
    return cleaned(facts, model);
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/suggest.h"

#include "judgement/rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace swarfbook {
namespace {

constexpr Strength noiseStrength = Strength::good;

/// The last repair of this visit if it held; else "".
std::string heldRepair(const VisitFindings& findings) {
    if (findings.repairs.empty() || findings.repairs.back().held != Held::fixed)
        return "";
    const std::vector<std::string>& parts = findings.repairs.back().parts;
    return parts.empty() ? "what was suggested" : listed(parts);
}

/// The first of the precedence that answers.
Draft decide(const Facts& facts, const SuggestionModel& model) {
    if (auto draft = safetyStop(facts))
        return *draft;
    if (auto draft = damageDespiteLevel(facts))
        return *draft;
    if (auto draft = causeOutside(facts, model))
        return *draft;
    if (auto draft = provenPart(facts, model))
        return *draft;
    if (auto draft = damageInside(facts))
        return *draft;
    if (auto draft = cleanAndRefit(facts, model))
        return *draft;
    return oneNextTest(facts, model);
}

/// Two strongest for it, the strongest against it.
void chooseStrongest(const SuggestionModel& model, Suggestion& s) {
    for (Reason& reason : s.all)
        reason.weight = model.weight(reason.strength, reason.place);
    std::stable_sort(s.all.begin(), s.all.end(),
                     [](const Reason& a, const Reason& b) { return a.weight > b.weight; });
    for (const Reason& reason : s.all) {
        if (reason.supports && s.strongestReasons.size() < 2)
            s.strongestReasons.push_back(reason.sentence);
        if (!reason.supports && s.strongestContrary.empty())
            s.strongestContrary = reason.sentence;
    }
}

} // namespace

Draft& Draft::because(const char* rule, Strength strength, const std::string& sentence, int place) {
    s.all.push_back({sentence, rule, 0.0, true, strength, place, {}});
    return *this;
}

Draft& Draft::but(const char* rule, Strength strength, const std::string& sentence) {
    s.all.push_back({sentence, rule, 0.0, false, strength, 0, {}});
    return *this;
}

Draft& Draft::about(const std::string& part) {
    s.all.back().about.push_back(part);
    return *this;
}

Draft& Draft::agreesWithControl(const SymptomFacts& symptoms, Strength strength) {
    const std::string told = symptoms.inWordsWithoutNoise();
    if (!told.empty())
        because("symptoms_agree", strength, fmt::format("This fits the complaint: {}.", told));
    if (symptoms.noise)
        but("noise_unexplained", noiseStrength,
            fmt::format("It makes no noise, but there is a noise: {}.", symptoms.noisesInWords()));
    return *this;
}

Draft& Draft::wouldChange(const std::string& observation) {
    s.wouldChange = observation;
    return *this;
}

Draft& Draft::checkFirst(const std::string& test, std::vector<Hazard> hazards) {
    s.nextTest = test;
    s.nextTestHazards = std::move(hazards);
    return *this;
}

Draft& Draft::withConverterAndCooler(const std::string& why) {
    s.converter = s.cooler = true;
    s.converterWhy = s.coolerWhy = why;
    return *this;
}

Draft& Draft::converterAndCoolerOpen(const std::string& why) {
    s.converterAsOption = s.coolerAsOption = true;
    s.converterWhy = s.coolerWhy = why;
    return *this;
}

std::string listed(const std::vector<std::string>& words) {
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i)
        text += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
    return text;
}

Suggestion suggest(const Evidence& evidence, const SuggestionModel& model, ReadAt readAt) {
    const Facts facts = factsOf(evidence, model, readAt);
    Draft draft = decide(facts, model);
    addFurtherReasons(facts, draft);
    addFailedRepairs(facts, draft);
    addElimination(facts, draft);
    addScope(facts, draft.s);
    chooseStrongest(model, draft.s);
    draft.s.cautions = cautionsFor(draft.s, facts);
    draft.s.overruled = facts.overruled;
    draft.s.heldRepair = heldRepair(*facts.findings);
    return draft.s;
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/judge_visit.h"

#include <algorithm>
#include <utility>

namespace swarfbook {
namespace {

bool nothingToJudge(const Evidence& evidence) {
    const bool measured =
        std::any_of(evidence.now.samples.begin(), evidence.now.samples.end(),
                    [](const DebrisSample& sample) { return sample.finding.has_value(); });
    const bool told = std::any_of(evidence.now.observations.begin(),
                                  evidence.now.observations.end(), [](const Observation& o) {
                                      return !std::holds_alternative<NotInspected>(o) &&
                                             !std::holds_alternative<SinceClean>(o);
                                  });
    return !measured && !told;
}

} // namespace

JudgementModels loadJudgementModels(const std::filesystem::path& models) {
    JudgementModels both{loadSuggestionModel(models / "suggestion.json"),
                         loadWearScoreModel(models / "wear-score.json")};
    both.wear.full = both.rules.fullMagnet;
    return both;
}

PartVerdicts partVerdicts(const Evidence& evidence, const SuggestionModel& rules) {
    Facts facts = factsOf(evidence, rules);
    return {std::move(facts.solenoids), std::move(facts.bores)};
}

Judgement judgeVisit(const Evidence& evidence, const JudgementModels& models,
                     const std::vector<LearnedCase>& cases) {
    Judgement judgement;
    judgement.suggestion = suggestWithTurns(evidence, models.rules);
    judgement.pattern = evidencePattern(evidence, models.rules);
    judgement.suggestion.learned =
        learnedBeside(cases, judgement.suggestion.outcome, judgement.pattern);
    Facts facts = factsOf(evidence, models.rules);
    if (facts.elimination && facts.elimination->anythingBad)
        judgement.elimination = std::move(facts.elimination);
    judgement.parts = {std::move(facts.solenoids), std::move(facts.bores)};
    judgement.wear = wearScore(evidence.now, models.wear);
    if (nothingToJudge(evidence))
        judgement.restsOnNothing =
            "No photo of this visit could be measured and no test or symptom was typed in, so "
            "there is nothing that a suggestion could rest on. Take the photos again as their "
            "refusals say, or type in what was tested.";
    return judgement;
}

} // namespace swarfbook

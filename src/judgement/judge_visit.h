// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/evidence.h"
#include "judgement/learned.h"
#include "judgement/sensitivity.h"
#include "judgement/wear_score.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// The settings that a visit is judged with.
struct JudgementModels {
    SuggestionModel rules;
    WearScoreModel wear;
};
/// Reads suggestion.json and wear-score.json of the folder. Throws ToolError as their loaders do.
JudgementModels loadJudgementModels(const std::filesystem::path& models);

/// Solenoids and bores by their readings, codes and repairs that did not help.
struct PartVerdicts {
    SolenoidTable solenoids;
    BoreTable bores;
};
PartVerdicts partVerdicts(const Evidence& evidence, const SuggestionModel& rules);

/// All that is judged of a visit, once: the commands and the report only print it.
struct Judgement {
    PartVerdicts parts;
    /// Nothing if the unit's chart is not known or there is no complaint.
    std::optional<Elimination> elimination;
    Suggestion suggestion; ///< with what would change it and the track record
    std::string pattern;   ///< of the evidence; cases with the same pattern are counted together
    /// Why nothing can be judged: every photo was refused and nothing was entered; else "".
    std::string restsOnNothing;
    WearScoreResult wear;
};

/// Judges a visit. Pure.
/// @param cases  cases of the workshop's own book with a known outcome
/// Checked: tests/cli/judge_test.cpp (commands and report agree).
Judgement judgeVisit(const Evidence& evidence, const JudgementModels& models,
                     const std::vector<LearnedCase>& cases);

} // namespace swarfbook

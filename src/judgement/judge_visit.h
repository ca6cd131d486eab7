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

/// What a visit is judged by.
struct JudgementModels {
    SuggestionModel rules;
    WearScoreModel wear;
};
/// Reads suggestion.json and wear-score.json of the folder. Throws ToolError as their loaders do.
JudgementModels loadJudgementModels(const std::filesystem::path& models);

/// Solenoids and bores by their readings, codes and what was done in vain.
struct PartVerdicts {
    SolenoidTable solenoids;
    BoreTable bores;
};
PartVerdicts partVerdicts(const Evidence& evidence, const SuggestionModel& rules);

/// All that is judged of a visit, once: the commands and the report only print it.
struct Judgement {
    PartVerdicts parts;
    /// Nothing where the unit's chart is not known or nothing bad was told.
    std::optional<Elimination> elimination;
    Suggestion suggestion; ///< with what would change it and the track record
    std::string pattern;   ///< of the evidence, by which cases are counted together
    /// Why nothing can be judged: every photo refused and nothing told; else "".
    std::string restsOnNothing;
    WearScoreResult wear;
};

/// Judges a visit. Pure.
/// @param cases  of the workshop's own book, whose outcome is known
/// Checked: tests/cli/judge_test.cpp (commands and report agree).
Judgement judgeVisit(const Evidence& evidence, const JudgementModels& models,
                     const std::vector<LearnedCase>& cases);

} // namespace swarfbook

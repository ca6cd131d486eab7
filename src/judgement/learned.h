// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/facts.h"
#include "judgement/suggest.h"
#include "trend/rates.h"

#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// With fewer cases than this there is no rate yet.
inline constexpr long fewestCases = 5;

/// Codes, complaint and debris of a visit in broad words: "electrical code, drives well, fines".
/// Visits with the same words are counted together.
std::string evidencePattern(const Evidence& evidence, const SuggestionModel& model);

/// A visit whose outcome at the next contact is known or was asked for. If there were several
/// repairs, the first counts, so that one that failed before another held is not forgotten.
struct LearnedCase {
    Recommendation outcome =
        Recommendation::notEnoughEvidence; ///< the suggestion from the evidence
    std::string pattern;
    Held held = Held::notKnown;
    bool asSuggested = true; ///< false: something else was done, so it does not count
};
/// Nothing if no outcome was recorded, or if the evidence suggested no step yet.
std::optional<LearnedCase> learnedCase(const Evidence& evidence, const SuggestionModel& model);

/// How often one suggestion held after one pattern of evidence, in one workshop's own book.
struct LearnedRow {
    Recommendation outcome = Recommendation::notEnoughEvidence;
    std::string pattern; ///< "" = all patterns together
    long held = 0, cases = 0;
    long notKnown = 0, otherwise = 0;     ///< outcome not known; something else was done
    std::optional<ShareInterval> share95; ///< Wilson; nothing below `fewestCases`
};

/// Each outcome by pattern, then over all patterns; most cases first.
/// Checked: tests/judgement/learned_test.cpp (Wilson intervals of Newcombe 1998).
std::vector<LearnedRow> learn(const std::vector<LearnedCase>& cases);

/// "held in 7 of 8 cases (95 %: 53 to 98 %)", or how many cases are missing.
std::string learnedSentence(const LearnedRow& row);

/// Lines to show beside a suggestion: its pattern, then all patterns. They change no rule.
std::vector<std::string> learnedBeside(const std::vector<LearnedCase>& cases,
                                       Recommendation outcome, const std::string& pattern);

} // namespace swarfbook

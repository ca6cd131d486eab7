// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "report/report_model.h"

#include <string>
#include <vector>

/// What a customer is told beside the verdict.
namespace swarfbook {

/// Why the suggestion is made, one sentence an entry, the fact against it last.
std::vector<std::string> reasonSentences(const ReportModel& model);
/// What waiting risks, by what is suggested; "" without a suggestion. Common practice, no source.
/// Checked: tests/report/customer_words_test.cpp (every recommendation has one).
std::string waitingSentence(const std::optional<Suggestion>& suggestion);
/// The lines of a quote that the suggestion leads to, without prices: the work first, then what
/// belongs to it.
std::vector<std::string> priceLines(const std::optional<Suggestion>& suggestion);
/// What came of flushing a part, as a car owner reads it: how many passes, what the first and the
/// last washed out, and whether it is clean. Checked: tests/report/flush_report_test.cpp.
std::string flushedSentence(const FlushOfPart& flush);
/// What was found in each photo, one sentence an entry; photos of a flush's passes are left out, as
/// flushedSentence covers them. Checked: tests/report/customer_words_test.cpp.
std::vector<std::string> photoSentences(const ReportModel& model);

} // namespace swarfbook

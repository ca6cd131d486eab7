// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/learned.h"
#include "record/book.h"

namespace swarfbook {

/// Every visit of the book with an outcome at the next contact, judged by today's rules from the
/// evidence of that visit. Cases judged before, by the same rules and the same program, are taken
/// from the book; the rest is judged and, if the book can be written, kept. A visit that cannot be
/// read is left out, and the book says so.
/// Checked: tests/report/learned_cases_test.cpp (after every kind of change).
std::vector<LearnedCase> learnedCases(const Book& book, const SuggestionModel& model);

} // namespace swarfbook

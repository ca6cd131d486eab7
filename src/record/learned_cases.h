// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/learned.h"
#include "record/book.h"

namespace swarfbook {

/// Every visit of the book with an outcome at the next contact, judged anew by today's rules from
/// the evidence of that visit. One that cannot be read is left out, and the book tells so. Checked:
/// tests/cli/learn_test.cpp.
std::vector<LearnedCase> learnedCases(const Book& book, const SuggestionModel& model);

} // namespace swarfbook

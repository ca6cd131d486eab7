// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/book.h"

#include <string>
#include <vector>

namespace swarfbook {

/// Sentences for a report's method on these photos of one visit: repeats of one sample, and how
/// their cards were checked by things of known size. Photos of one place that were taken the same
/// way (`sampling`) are repeats.
/// Checked: tests/report/report_from_book_test.cpp.
std::vector<std::string> methodNotes(const Book& book, const std::vector<StoredPhoto>& photos);

/// The repeats alone, a sentence each.
std::vector<std::string> repeatNotes(const std::vector<StoredPhoto>& photos);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/book_values.h"

#include <string>
#include <vector>

namespace swarfbook::cli {

/// What is else in a photo's finding than in the one before it, one sentence each: counts, size
/// floor, pieces that came and went by their places on the card, the longest piece, doubtful
/// pieces, the fuzz on a magnet, and what a hand corrected and is found no more. Both are with the
/// corrections that stand. Empty where nothing changed.
/// Checked: tests/cli/piece_test.cpp.
std::vector<std::string> findingChanges(const StoredPhoto& before, const StoredPhoto& now);

} // namespace swarfbook::cli

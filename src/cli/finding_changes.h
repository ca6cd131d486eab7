// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/book_values.h"

#include <string>
#include <vector>

namespace swarfbook::cli {

/// The differences between a photo's finding and the one before, one sentence each: counts, size
/// limit, new and missing pieces by their places on the card, the longest piece, doubtful pieces,
/// the fuzz on a magnet, and corrected pieces that are no longer found. Both include the valid
/// corrections. Empty if nothing changed.
/// Checked: tests/cli/piece_test.cpp.
std::vector<std::string> findingChanges(const StoredPhoto& before, const StoredPhoto& now);

} // namespace swarfbook::cli

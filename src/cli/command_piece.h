// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"
#include "cli/piece_review.h"

namespace swarfbook::cli {

/// piece --photo P NUMBER... --is WORD, or --review. Checked: tests/cli/piece_test.cpp.
/// @param review  what `piece --review` does; empty in the quick program, which hands that over
CommandEntry pieceEntry(ReviewPieces review);

} // namespace swarfbook::cli

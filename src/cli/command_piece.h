// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// piece --photo P NUMBER... --is WORD. Checked: tests/cli/piece_test.cpp.
CommandEntry pieceEntry();

} // namespace swarfbook::cli

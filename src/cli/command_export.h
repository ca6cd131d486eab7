// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// export: the book's visits, photos, pieces or observations as CSV or JSON Lines.
/// Checked: tests/cli/export_test.cpp.
CommandEntry exportEntry();

} // namespace swarfbook::cli

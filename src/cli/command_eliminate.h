// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// swarfbook eliminate: which parts a visit's gears, shifts, codes and tests leave.
/// Checked: tests/cli/unit_test.cpp.
CommandEntry eliminateEntry();

} // namespace swarfbook::cli

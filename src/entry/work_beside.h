// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "entry/repair_done.h"

#include <string>

namespace swarfbook {

/// Reads a phrase of a line of work that has a kind of its own into `done`: the amount of fluid,
/// the level at its temperature, codes afterwards, the adaptation, the selector, leaks, and how it
/// drove. Throws UsageError for an impossible quantity.
/// @return false for any other phrase; `done` is then unchanged.
/// Checked: tests/cli/work_done_test.cpp.
bool readBeside(const std::string& phrase, WorkDone& done, Sure sure);

} // namespace swarfbook

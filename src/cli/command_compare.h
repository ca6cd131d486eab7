// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// compare: two visits of one vehicle at their common size limit, and the trend over all of them.
/// Checked: tests/cli/judge_test.cpp.
CommandEntry compareEntry();

} // namespace swarfbook::cli

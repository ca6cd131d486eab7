// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// observe: what was seen and tested by hand, typed in.
/// Checked: tests/cli/observe_test.cpp.
CommandEntry observeEntry();

} // namespace swarfbook::cli

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// list: the visits of all vehicles, newest first, and those that searched words fit.
/// Checked: tests/cli/list_test.cpp.
CommandEntry listEntry();

} // namespace swarfbook::cli

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// list: the visits of all vehicles, newest first, or those that match the searched words.
/// Checked: tests/cli/list_test.cpp.
CommandEntry listEntry();

} // namespace swarfbook::cli

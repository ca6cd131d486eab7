// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// photo withdraw N. Checked: tests/cli/withdraw_test.cpp.
CommandEntry photoEntry();

} // namespace swarfbook::cli

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// swarfbook unit: the application chart of a transmission.
/// Checked: tests/cli/unit_test.cpp.
CommandEntry unitEntry();

} // namespace swarfbook::cli

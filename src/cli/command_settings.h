// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// settings. Checked: tests/cli/settings_test.cpp.
CommandEntry settingsEntry();

} // namespace swarfbook::cli

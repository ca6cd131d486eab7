// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// suggest: the suggestion for a visit, with its reasons.
/// Checked: tests/cli/judge_test.cpp.
CommandEntry suggestEntry();

} // namespace swarfbook::cli

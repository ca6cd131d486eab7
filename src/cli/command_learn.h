// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// suggest: what the evidence of a visit points to, with its reasons.
/// Checked: tests/cli/judge_test.cpp.
CommandEntry learnEntry();

} // namespace swarfbook::cli

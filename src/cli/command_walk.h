// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// `swarfbook walk`: the work sheet, asked question by question.
CommandEntry walkEntry();

} // namespace swarfbook::cli

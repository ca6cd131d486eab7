// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// book check: checks whether the book is whole, and clears what a stopped command left.
CommandEntry bookEntry();

} // namespace swarfbook::cli

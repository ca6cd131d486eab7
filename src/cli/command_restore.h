// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// restore: turns a backup back into a book.
CommandEntry restoreEntry();

} // namespace swarfbook::cli

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// restore: a backup back as a book.
CommandEntry restoreEntry();

} // namespace swarfbook::cli

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// card: prints a reference card to PDF, prints one again, or keeps its measured check bar.
CommandEntry cardEntry();

} // namespace swarfbook::cli

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// measure: measures photos without keeping them in a book.
CommandEntry measureEntry();

} // namespace swarfbook::cli

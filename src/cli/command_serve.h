// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// serve: the pages of the book, for phones and browsers.
CommandEntry serveEntry();

} // namespace swarfbook::cli

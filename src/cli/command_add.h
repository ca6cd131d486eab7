// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// add: photos into a visit, measured on the way.
CommandEntry addEntry();

} // namespace swarfbook::cli

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// vehicle add | unit | rename | correct | withdraw | list | show.
CommandEntry vehicleEntry();

} // namespace swarfbook::cli

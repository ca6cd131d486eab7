// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// visit add | list | show | correct | measure.
CommandEntry visitEntry();

} // namespace swarfbook::cli

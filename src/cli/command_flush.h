// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// `flush start`, `flush add` and `flush show`: the log of a part that is flushed into a tray, pass
/// by pass. Checked: tests/cli/flush_test.cpp.
CommandEntry flushEntry();

} // namespace swarfbook::cli

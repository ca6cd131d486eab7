// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"
#include "cli/work_photo_files.h"

namespace swarfbook::cli {

/// observe: what was seen and tested by hand, typed in.
/// @param readPhoto  readWorkPhoto; empty in the quick program, which hands photos of work over
/// Checked: tests/cli/observe_test.cpp, tests/cli/work_photos_test.cpp.
CommandEntry observeEntry(ReadWorkPhoto readPhoto);

} // namespace swarfbook::cli

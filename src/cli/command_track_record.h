// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// track-record: how often the suggestions of the book proved right.
/// Checked: tests/cli/track_record_test.cpp.
CommandEntry trackRecordEntry();

} // namespace swarfbook::cli

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.h"

namespace swarfbook::cli {

/// `swarfbook check`: the shop's own proof that its card and phone measure right, by a thing of
/// known size. Checked: tests/cli/check_test.cpp.
CommandEntry checkEntry();

} // namespace swarfbook::cli

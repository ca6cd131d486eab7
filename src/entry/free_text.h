// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/typed.h"

#include <string>

namespace swarfbook {

/// Questions a note that sounds like a finding of its own, because a note does not count:
/// "milkshake", "rust", "burnt". Throws UsageError saying how to type it, unless it is meant as a
/// note. Checked: tests/cli/judge_test.cpp.
void questionNote(const std::string& note, Sure sure);

} // namespace swarfbook

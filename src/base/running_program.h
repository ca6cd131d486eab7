// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>

namespace swarfbook {

/// The program's own file, links followed; where /proc is not there, as it was called. Empty when
/// the system does not say.
/// Checked: tests/assess/assess_test.cpp (the data beside a program are found).
std::filesystem::path runningProgram();

} // namespace swarfbook

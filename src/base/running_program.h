// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>

namespace swarfbook {

/// The path of the program's own file, links followed. Without /proc it is the name by which the
/// program was called. Empty if the system does not say. Checked: tests/assess/assess_test.cpp (the
/// data beside a program are found).
std::filesystem::path runningProgram();

} // namespace swarfbook

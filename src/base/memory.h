// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>

namespace swarfbook {

/// Whether the system would give that much memory to this program now. Nothing is taken.
[[nodiscard]] bool memoryLeft(std::size_t mebibytes);

/// Throws std::bad_alloc where the system would not give that much memory to this program now.
/// Libraries that end the program when memory fails them are asked for only after this. Nothing is
/// taken; what another program takes in between is not foreseen.
/// Checked: tests/cli/low_memory_test.cpp.
void requireMemory(std::size_t mebibytes);

} // namespace swarfbook

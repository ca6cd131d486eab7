// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>

namespace swarfbook {

/// Whether the system would give this program that much memory now. Takes no memory.
[[nodiscard]] bool memoryLeft(std::size_t mebibytes);

/// Throws std::bad_alloc where the system would not give that much memory to this program now.
/// Call it before a library that ends the program when it gets no memory. It takes no memory, so
/// another program may still take it in between. Checked: tests/cli/low_memory_test.cpp.
void requireMemory(std::size_t mebibytes);

} // namespace swarfbook

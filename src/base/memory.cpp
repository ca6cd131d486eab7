// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/memory.h"

#include <new>
#include <sys/mman.h>

namespace swarfbook {

bool memoryLeft(std::size_t mebibytes) {
    const std::size_t bytes = mebibytes << 20U;
    void* const taken =
        mmap(nullptr, bytes, PROT_NONE, MAP_PRIVATE | MAP_ANONYMOUS | MAP_NORESERVE, -1, 0);
    if (taken == MAP_FAILED)
        return false;
    munmap(taken, bytes);
    return true;
}

void requireMemory(std::size_t mebibytes) {
    if (!memoryLeft(mebibytes))
        throw std::bad_alloc();
}

} // namespace swarfbook

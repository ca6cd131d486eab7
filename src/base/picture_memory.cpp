// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/picture_memory.h"

#include <cstdlib>

namespace swarfbook {

void preparePictureMemory() {
    constexpr int keepTheUsers = 0;
    setenv("GLIBC_TUNABLES", SWARFBOOK_PICTURE_MEMORY, keepTheUsers);
}

} // namespace swarfbook

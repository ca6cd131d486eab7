// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/picture_memory.h"

#include <cstdlib>

namespace swarfbook {

void preparePictureMemory() {
    // mmap_threshold: what is larger is given back at once: photos beyond 22 megapixels, so that
    //     a large photo's peak stays low (own experiment with 48 megapixels).
    // top_pad: how much is asked of the kernel at once; a huge page has 2 MiB.
    // trim_threshold: how much may lie unused before it is given back.
    constexpr const char* settings = "glibc.malloc.hugetlb=1:"
                                     "glibc.malloc.mmap_threshold=67108864:"
                                     "glibc.malloc.top_pad=67108864:"
                                     "glibc.malloc.trim_threshold=268435456";
    constexpr int keepTheUsers = 0;
    setenv("GLIBC_TUNABLES", settings, keepTheUsers);
}

} // namespace swarfbook

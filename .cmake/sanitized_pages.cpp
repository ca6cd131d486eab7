// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include <cstddef>
#include <cstdint>
#include <sys/mman.h>

// Linked into each program of a build with sanitizers. Their allocator asks the system anew for
// every picture and hands it back at once, in pages of 4 kB; half of the tests' time went into
// that. Here large blocks and the sanitizers' notes on them get pages of 2 MB. What is checked
// stays the same.

extern "C" {
int __sanitizer_install_malloc_and_free_hooks(void (*)(const volatile void*, std::size_t),
                                              void (*)(const volatile void*));
void __asan_get_shadow_mapping(std::size_t* scale, std::size_t* offset);
const char* __asan_default_options();
}

extern "C" const char* __asan_default_options() {
    return "clear_shadow_mmap_threshold=100000000";
}

namespace {

constexpr std::uintptr_t largePage = std::uintptr_t{2} << 20;

void askForLargePages(std::uintptr_t first, std::uintptr_t last) {
    if (last > first)
        madvise(reinterpret_cast<void*>(first), last - first, MADV_HUGEPAGE);
}

/// All pages at once; each would else interrupt the program when it is first written to.
void fetch(std::uintptr_t first, std::uintptr_t last) {
    constexpr std::uintptr_t page = 4096;
    first = (first + page - 1) / page * page;
    if (last / page * page > first)
        madvise(reinterpret_cast<void*>(first), last / page * page - first, MADV_POPULATE_WRITE);
}

void whenGiven(const volatile void* block, std::size_t size) {
    if (size >= (1u << 17) && size < largePage) {
        const auto first = reinterpret_cast<std::uintptr_t>(block);
        fetch(first, first + size);
        return;
    }
    if (size < largePage)
        return;
    const auto first = reinterpret_cast<std::uintptr_t>(block);
    const auto last = first + size;
    askForLargePages((first + largePage - 1) / largePage * largePage, last / largePage * largePage);
    std::size_t scale = 0, offset = 0;
    __asan_get_shadow_mapping(&scale, &offset);
    const auto notes = [&](std::uintptr_t at) { return (at >> scale) + offset; };
    askForLargePages(notes(first) / largePage * largePage,
                     (notes(last) / largePage + 1) * largePage);
}

[[maybe_unused]] const int installed =
    __sanitizer_install_malloc_and_free_hooks(whenGiven, [](const volatile void*) {});

} // namespace

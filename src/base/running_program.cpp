// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/running_program.h"

#include <sys/auxv.h>
#include <system_error>

namespace swarfbook {

std::filesystem::path runningProgram() {
    std::error_code unknown;
    auto program = std::filesystem::read_symlink("/proc/self/exe", unknown);
    if (!unknown)
        return program;
    const auto* called = reinterpret_cast<const char*>(getauxval(AT_EXECFN));
    return called == nullptr ? std::filesystem::path()
                             : std::filesystem::weakly_canonical(called, unknown);
}

} // namespace swarfbook

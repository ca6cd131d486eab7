// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/assess.h"
#include "base/running_program.h"

#include <cstdlib>
#include <system_error>

namespace swarfbook {

std::filesystem::path dataFolder() {
    if (const char* given = std::getenv("SWARFBOOK_DATA"); given != nullptr && *given != '\0')
        return given;
    const std::filesystem::path folder = runningProgram().parent_path();
    const auto data = (folder / SWARFBOOK_DATA_FROM_PROGRAM).lexically_normal();
    // The full program lies one folder deeper than the one that is typed (cli/full_program.h).
    const auto deeper = (folder / ".." / SWARFBOOK_DATA_FROM_PROGRAM).lexically_normal();
    std::error_code none;
    return !std::filesystem::exists(data, none) && std::filesystem::exists(deeper, none) ? deeper
                                                                                         : data;
}

} // namespace swarfbook

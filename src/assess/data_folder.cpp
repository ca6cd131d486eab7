// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/assess.h"

#include <cstdlib>
#include <system_error>

namespace swarfbook {

std::filesystem::path dataFolder() {
    if (const char* given = std::getenv("SWARFBOOK_DATA"); given != nullptr && *given != '\0')
        return given;
    std::error_code none;
    const auto program = std::filesystem::read_symlink("/proc/self/exe", none);
    if (!none) {
        // bin/swarfbook or libexec/swarfbook/swarfbook-full
        const auto above = program.parent_path().parent_path();
        for (const auto& prefix : {above, above.parent_path()}) {
            const auto installed = prefix / "share" / "swarfbook";
            if (std::filesystem::exists(installed / "calibration", none))
                return installed;
        }
    }
    return SWARFBOOK_BUILT_FROM;
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/regular_file.h"

#include <fmt/format.h>

namespace swarfbook {

std::string whyNotReadable(const std::filesystem::path& file) {
    std::error_code error;
    const std::filesystem::file_status status = std::filesystem::status(file, error);
    switch (status.type()) {
    case std::filesystem::file_type::regular:
        return {};
    case std::filesystem::file_type::not_found:
        return fmt::format("There is no file {}. Check the name and the folder.", file.string());
    case std::filesystem::file_type::directory:
        return fmt::format("{} is a folder. Name a file in it.", file.string());
    case std::filesystem::file_type::none:
    case std::filesystem::file_type::unknown:
        return fmt::format("{} cannot be read ({}). Check that you may read it.", file.string(),
                           error.message());
    default:
        return fmt::format("{} is a pipe or a device, not an ordinary file. Save what it gives as "
                           "a file and name that.",
                           file.string());
    }
}

} // namespace swarfbook

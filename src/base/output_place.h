// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/errors.h"

#include <fmt/format.h>

#include <filesystem>
#include <string_view>
#include <system_error>

/// Where an output goes; for base/output_file.cpp and base/outputs.cpp.
namespace swarfbook {

/// The folder that the file is in, "." where its name has none.
inline std::filesystem::path folderOf(const std::filesystem::path& file) {
    return file.has_parent_path() ? file.parent_path() : std::filesystem::path(".");
}

/// Where a file's name leads: a link is followed, so that it stays a link. The last part may be
/// missing.
inline std::filesystem::path followed(const std::filesystem::path& file) {
    std::error_code error;
    std::filesystem::path real = std::filesystem::weakly_canonical(file, error);
    return error ? file : real;
}

/// Throws UsageError, which says that the name is taken and what to do about it.
[[noreturn]] inline void throwThere(const std::filesystem::path& file, std::string_view orElse) {
    throw UsageError(fmt::format("{} is there already and was left as it is. Give another name{}.",
                                 file.string(), orElse));
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/photo_file.h"

#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

namespace swarfbook::cli {

/// The photos that a user names: files, folders (every .jpg, .jpeg, .png, .heic and .heif in it by
/// name, without subfolders) and "-" for piped input.
/// Checked: tests/cli/given_photos_test.cpp.
class GivenPhotos {
  public:
    GivenPhotos() = default;
    /// Looks into the folders and reads piped input. Throws UsageError for a folder without photos,
    /// and for "-" twice or without piped input.
    explicit GivenPhotos(const std::vector<std::string>& typed);

    /// One for each photo; "-" for piped input.
    [[nodiscard]] const std::vector<std::filesystem::path>& files() const { return files_; }
    /// As readPhotoFile.
    [[nodiscard]] Result<std::vector<std::byte>> bytes(const std::filesystem::path& file) const;
    /// As readPhoto.
    [[nodiscard]] PhotoFile read(const std::filesystem::path& file) const;
    /// The file's name without its folders; "standard-input" for piped input.
    static std::string nameOf(const std::filesystem::path& file);

  private:
    std::vector<std::filesystem::path> files_;
    std::vector<std::byte> piped_;
};

} // namespace swarfbook::cli

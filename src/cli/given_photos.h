// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/photo_file.h"

#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

namespace swarfbook::cli {

/// The photos that a user names: files, folders (then every .jpg, .jpeg, .png, .heic and .heif in
/// it by its name, those of folders in it left out) and "-" for what is piped in.
/// Checked: tests/cli/given_photos_test.cpp.
class GivenPhotos {
  public:
    GivenPhotos() = default;
    /// Looks into the folders and reads what is piped in. Throws UsageError for a folder without
    /// photos, and for "-" twice or where nothing is piped in.
    explicit GivenPhotos(const std::vector<std::string>& typed);

    /// One for each photo; what is piped in stands as "-".
    [[nodiscard]] const std::vector<std::filesystem::path>& files() const { return files_; }
    /// As readPhotoFile.
    [[nodiscard]] Result<std::vector<std::byte>> bytes(const std::filesystem::path& file) const;
    /// As readPhoto.
    [[nodiscard]] PhotoFile read(const std::filesystem::path& file) const;
    /// The file's name without its folders; "standard-input" for what is piped in.
    static std::string nameOf(const std::filesystem::path& file);

  private:
    std::vector<std::filesystem::path> files_;
    std::vector<std::byte> piped_;
};

} // namespace swarfbook::cli

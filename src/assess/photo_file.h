// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/result.h"
#include "photo/photo.h"

#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

namespace swarfbook {

/// A photo as it was given, read and decoded once for all its uses.
struct PhotoFile {
    std::string file;   ///< name without its folders
    std::string sha256; ///< of its bytes; empty when it could not be read
    Result<Photo> photo;
};

/// Reads and decodes a photo. A file that is not a photo gives a refusal in the result, never an
/// exception. Throws std::bad_alloc if there is too little memory to measure a photo. Checked:
/// tests/cli/read_once_test.cpp, tests/cli/low_memory_test.cpp.
PhotoFile readPhoto(const std::filesystem::path& file);

/// The same from the result of readPhotoFile.
PhotoFile photoFrom(const Result<std::vector<std::byte>>& bytes, const std::string& name);

} // namespace swarfbook

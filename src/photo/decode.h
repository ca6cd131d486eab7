// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/result.h"
#include "photo/photo.h"

#include <cstddef>
#include <filesystem>
#include <span>
#include <string>
#include <vector>

namespace swarfbook {

/// Bytes of a file. Refuses not_a_photo (with the reason: missing, a folder, unreadable, empty,
/// larger than 256 MiB), because for the user they all mean the same: this photo cannot be
/// measured.
Result<std::vector<std::byte>> readPhotoFile(const std::filesystem::path& path);

/// Decodes a photo from the bytes of its file.
///
/// @param bytes     JPEG, PNG or HEIC, recognised by content, never by name.
/// @param fileName  only for PhotoFacts::file and messages.
/// @return upright photo; alpha is laid on white; 16-bit is brought to 8.
///         Refuses not_a_photo (unknown, damaged or truncated), too_large (more than 100 megapixels
///         declared, refused before any pixel memory is taken).
///
/// How much damage is noticed, one flipped bit of picture data at a time: in a PNG all of it
/// (checksums); in a HEIC 95 to 100 of 100, and the rest visibly changes under 1 % of the pixels;
/// in a JPEG about 30 of 100, because half of its data are plain numbers and it has no checksum: a
/// flip there changes one block or, in a baseline file, the light of all later blocks. A part that
/// is missing or cut off, or (HEIC) that is repeated or of a single colour, is always noticed.
/// Checked: tests/photo/decode_test.cpp, damaged_photo_test.cpp, damaged_heic_test.cpp.
Result<Photo> decodePhoto(std::span<const std::byte> bytes, const std::string& fileName);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/result.h"

#include <opencv2/core.hpp>

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

/// Inside photo/ only: one decoder per kind of file, used by decodePhoto.
/// Checked: tests/photo/decode_test.cpp, damaged_photo_test.cpp.
namespace swarfbook::decoding {

using Bytes = std::span<const std::byte>;

/// Largest photo read, in declared pixels: 300 MB once decoded. Larger than any phone's sensor.
constexpr std::uint64_t maxPixels = 100'000'000;

/// What a decoder hands over: pixels as stored, and the turn that is still to be applied.
struct StoredPicture {
    cv::Mat bgr;                 ///< CV_8UC3, sRGB-encoded, alpha laid on white
    std::vector<std::byte> exif; ///< "Exif", two zeros, TIFF block; empty when there is none
    bool upright = false;        ///< true: the decoder has already applied the file's own turns
};

Result<StoredPicture> decodeJpeg(Bytes bytes);
Result<StoredPicture> decodePng(Bytes bytes);
Result<StoredPicture> decodeHeif(Bytes bytes);

/// Whether width x height exceeds maxPixels.
[[nodiscard]] bool isTooLarge(std::uint64_t width, std::uint64_t height);
Refusal tooLarge(std::uint64_t width, std::uint64_t height);
/// The file ends before the picture does. @param kind "JPEG", "PNG" or "HEIC".
Refusal cutShort(const std::string& kind);
/// The file's content is broken. @param what the decoder's own words.
Refusal damaged(const std::string& kind, const std::string& what);
Refusal notAPhoto(const std::string& detail, const std::string& advice);

} // namespace swarfbook::decoding

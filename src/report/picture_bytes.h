// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <opencv2/core.hpp>

#include <filesystem>
#include <string>
#include <vector>

namespace swarfbook {

/// The picture as a JPEG or PNG file's bytes, built from pixels alone: no EXIF, no location, no
/// camera, no thumbnail, no text.
///
/// @param bgr      8-bit BGR.
/// @param quality  JPEG, 1 to 100.
/// Checked: tests/report/picture_bytes_test.cpp.
std::vector<unsigned char> jpegBytes(const cv::Mat& bgr, int quality = 90);
std::vector<unsigned char> pngBytes(const cv::Mat& bgr);

/// The picture in the format given by the file's ending (.jpg, .jpeg, .png). Throws as
/// requirePictureName.
std::vector<unsigned char> pictureBytes(const std::filesystem::path& file, const cv::Mat& bgr);

/// Throws UsageError, naming the endings that work, for another ending. Call it before any work is
/// done.
void requirePictureName(const std::filesystem::path& file);

} // namespace swarfbook

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

/// Writes a picture whole or not at all; the file's ending (.jpg, .jpeg, .png) chooses the format.
/// Throws UsageError for another ending, and as writeWhole does.
void writePicture(const std::filesystem::path& file, const cv::Mat& bgr);

/// Throws UsageError, naming the endings that work, where writePicture would: for asking before
/// any work is done.
void requirePictureName(const std::filesystem::path& file);

/// Writes a file whole or not at all: into a new file beside it, flushed to disk, then renamed over
/// it. Throws UsageError when `file` is a folder, ToolError when it cannot be written; a file that
/// was there before is then untouched.
void writeWhole(const std::filesystem::path& file, const std::vector<unsigned char>& bytes);

} // namespace swarfbook

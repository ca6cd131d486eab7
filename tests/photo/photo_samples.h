// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <opencv2/core.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

/// Small photo files made in the tests, and the picture that they show.
namespace swarfbook::samples {

using Bytes = std::vector<std::byte>;

/// Colours of six blocks, BGR, and the block that the stored picture has at row, column:
/// 0 1 2 / 3 4 5.
extern const std::array<cv::Vec3b, 6> blockColours;
constexpr int blockSide = 32;

/// The stored picture: 96 x 64, six blocks in reading order.
cv::Mat blocksAsStored();

/// Six blocks read at their middles, row by row: "012/345" for the picture as stored. A block whose
/// colour matches no block within `tolerance` is "?".
std::string blocksOf(const cv::Mat& bgr, int tolerance = 24);

/// An EXIF block ("Exif", two zeros, big-endian TIFF) with orientation, capture time
/// 2025:03:14 10:12:00 and a 26 mm equivalent.
Bytes exifBlock(std::uint16_t orientation);

Bytes jpegOf(const cv::Mat& picture, const std::vector<int>& settings = {});
Bytes pngOf(const cv::Mat& picture);
/// A JPEG of four inks with the Adobe mark, stored inverted as such files are.
/// @param cmyk  CV_8UC4, each channel as stored.
Bytes cmykJpegOf(const cv::Mat& cmyk);
/// The JPEG with the EXIF block as its first segment.
Bytes jpegWithExif(const Bytes& jpeg, const Bytes& exif);
/// The PNG with a chunk put before its pixels.
Bytes pngWithChunk(const Bytes& png, const std::string& kind, const Bytes& content);
/// A file that is a header only and declares width x height.
Bytes jpegHeader(unsigned width, unsigned height);
Bytes pngHeader(std::uint32_t width, std::uint32_t height);
/// A HEIC file stored beside the tests, whole; the test fails if it is missing.
Bytes storedHeic(const std::string& name);
/// turned.heic: the six blocks stored as above, to be turned a quarter clockwise by its own
/// "irot", with an EXIF block that asks for the same turn. Written with libheif 1.15.1 and x265.
Bytes turnedHeic();

Bytes bytesOf(const std::vector<unsigned char>& bytes);
Bytes bytesOf(const std::string& text);

} // namespace swarfbook::samples

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <opencv2/core.hpp>

#include <array>

namespace swarfbook {

/// Linear light, 0 to 1, of every 8-bit sRGB code (IEC 61966-2-1).
/// Checked: tests/photo/linear_light_test.cpp (published values).
const std::array<float, 256>& linearFromSrgb();

/// CIE L*a*b* of an 8-bit sRGB colour, white = the matrix's own row sums, so that greys have
/// a = b = 0 (IEC 61966-2-1 matrix to 4 decimals; CIE 15).
cv::Vec3d labFromSrgb(unsigned char red, unsigned char green, unsigned char blue);

/// CIEDE2000 colour difference (Sharma, Wu and Dalal 2005), kL = kC = kH = 1.
double ciede2000(const cv::Vec3d& labA, const cv::Vec3d& labB);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <opencv2/core.hpp>

#include <array>
#include <map>

namespace swarfbook {

/// Corners of a marker as the dictionary draws it: top-left, top-right, bottom-right, bottom-left;
/// photo pixels.
using MarkerCorners = std::array<cv::Point2f, 4>;

/// AprilTag 36h11 markers by id. Searched in a picture reduced to about 1000 px, where blur
/// and noise are small; at twice that where too few were found.
///
/// @param bgr  H x W x 3, uint8.
/// @return corners good to about half a reduced pixel: a start for the edge fit, not a result.
std::map<int, MarkerCorners> findMarkers(const cv::Mat& bgr);

} // namespace swarfbook

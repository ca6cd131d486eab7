// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <opencv2/core.hpp>

#include <vector>

namespace swarfbook {

/// The longest closed zero contour of a field, to a fraction of a pixel (marching squares, linear
/// interpolation along grid lines; saddles keep the positive parts apart).
///
/// @param field  CV_32F, positive inside; its outermost rows and columns must be negative.
/// @return points in field pixels, not repeated at the end; empty where nothing is positive.
/// Checked: tests/debris/level_contour_test.cpp (discs and rectangles of known size).
std::vector<cv::Point2d> longestZeroContour(const cv::Mat& field);

} // namespace swarfbook

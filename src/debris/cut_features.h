// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/cut.h"

#include <opencv2/core.hpp>

#include <utility>
#include <vector>

namespace swarfbook {

/// Where a cut runs.
struct CutLine {
    const std::vector<cv::Point>& pixels; ///< in the box
    double length = 1.0;                  ///< px
    double shallow = 0.0, deep = 0.0;     ///< px that the outline bends inwards at its ends
    std::pair<double, double> whole;      ///< solidity and aspect of both sides together
    cv::Vec3d surface;                    ///< beneath both sides, mean, codes
};

/// The rectangle just round the pixels of a mask (CV_8U), and so many px around it as lie in the
/// mask.
cv::Rect partWith(const cv::Mat& mask, int around);

/// Area over the convex hull's, shortest over longest side of the box round it; of a mask (CV_8U)
/// that is not empty.
std::pair<double, double> solidityAndAspect(const cv::Mat& mask);

/// Mean of what a mask (CV_8U) takes of a picture (CV_8UC3).
cv::Vec3d meanOf(const cv::Mat& picture, const cv::Mat& mask);

/// All numbers of CutFeature for one cut.
/// @param sides  CV_8U of the box, neither empty, in any order
/// Checked: tests/debris/cut_test.cpp.
CutFeatures cutFeaturesOf(const CutLine& line, const std::pair<cv::Mat, cv::Mat>& sides,
                          const CutTask& task, const CutSurroundings& around);

} // namespace swarfbook

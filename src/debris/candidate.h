// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/contrast.h"
#include "debris/window_crop.h"

#include <opencv2/core.hpp>

#include <vector>

namespace swarfbook {

/// Something that stands out from its surroundings, before it is known what it is.
struct Candidate {
    cv::Rect box;                     ///< in the crop, with a rim of 3 px at least
    cv::Mat mask;                     ///< CV_8U, of `box`, holes filled
    std::vector<cv::Point2d> outline; ///< half-level contour, crop pixels
    double areaPx = 0.0;              ///< of the mask
    double peak = 0.0;                ///< largest contrast within
    double noise = 1.0;               ///< of the surface around
    double openShare = 0.0;           ///< of the mask that filling brought in: holes, flat middles
    bool atEdge = false;              ///< touches the measured window's border
};

/// Finds what stands out: pixels above 3.2 sigma (and 6 codes), joined; of those with a peak above
/// 7 sigma (and 14 codes) the half-level contour against the nearest inner peak.
std::vector<Candidate> findCandidates(const WindowCrop& crop, const ContrastField& field,
                                      Pixels edgeWidth);

/// Sets what lies within an outline of the mask (CV_8U, 0 and 255) to 255.
void fillHoles(cv::Mat& mask);

} // namespace swarfbook

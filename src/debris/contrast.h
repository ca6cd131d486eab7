// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/window_crop.h"

#include <opencv2/core.hpp>

namespace swarfbook {

/// How much every pixel of the window stands out from its own surroundings.
struct ContrastField {
    cv::Mat smooth;     ///< CV_8UC3, the crop after a light blur of 0.7 px
    cv::Mat background; ///< CV_8UC3, the surface as it would look without debris
    cv::Mat contrast;   ///< CV_32F, colour distance in 8-bit codes; 0 outside the window
    cv::Mat noise;      ///< CV_32F at tile resolution: robust sigma of the contrast
    int tile = 1;       ///< px a side of one noise tile

    /// Noise at a crop pixel.
    [[nodiscard]] float noiseAt(int x, int y) const {
        return noise.at<float>(std::min(y / tile, noise.rows - 1),
                               std::min(x / tile, noise.cols - 1));
    }
};

/// Estimates the surface (median over 6 mm, then over 2.5 mm with what
/// stood out taken away) and the colour distance from it: luma and two colour differences, darker
/// and brighter alike. Checked: tests/debris/contrast_test.cpp.
ContrastField contrastField(const WindowCrop& crop);

/// Colour distance of two pictures (CV_8UC3), CV_32F in 8-bit codes; 0 where `inside` is 0.
cv::Mat colourDistances(const cv::Mat& picture, const cv::Mat& from, const cv::Mat& inside);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <opencv2/core.hpp>

#include <vector>

/// Shapes as CV_8U masks (0 or 255), grown and shrunk by circles of any radius in pixels; radii
/// of more than 5 px at a coarser resolution, right to a tenth or so.
namespace swarfbook::masks {

cv::Mat grown(const cv::Mat& mask, double radius);
cv::Mat shrunk(const cv::Mat& mask, double radius);
cv::Mat closed(const cv::Mat& mask, double radius); ///< gaps narrower than 2 radius bridged
cv::Mat opened(const cv::Mat& mask, double radius); ///< parts narrower than 2 radius gone
/// Everything that the outside cannot reach.
cv::Mat filled(const cv::Mat& mask);
/// The piece with the largest area; empty masks stay empty.
cv::Mat largestPiece(const cv::Mat& mask);
/// The pieces of `mask` that share a pixel with `seeds`.
cv::Mat piecesWith(const cv::Mat& mask, const cv::Mat& seeds);
/// A mask from labels (CV_32S): each pixel gets its label's value.
cv::Mat ofLabels(const cv::Mat& labels, const std::vector<unsigned char>& valueOfLabel);
/// Outer edge of the largest piece, pixel centres; empty for an empty mask.
std::vector<cv::Point> outerEdge(const cv::Mat& mask);
/// Round structuring element for grey images, radius in pixels, at least one.
cv::Mat disc(double radius);
/// Largest difference of a CV_32F image between places less than twice `radius` (pixels) apart.
cv::Mat stepWithin(const cv::Mat& image, double radius);
/// Value below which a share of the pixels under the mask lies; `otherwise` if there are none.
double quantile(const cv::Mat& image, const cv::Mat& mask, double share, double otherwise);

} // namespace swarfbook::masks

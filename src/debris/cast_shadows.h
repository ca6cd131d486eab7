// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/candidate.h"
#include "debris/contrast.h"

#include <opencv2/core.hpp>

#include <vector>

namespace swarfbook {

/// What the candidates of one photo tell together of its light. No single outline tells whether a
/// shadow was taken in; but pieces lie every way, so what is common to all of them is the lamp's.
struct CastShadows {
    cv::Point2d axis;  ///< doubled angle of the way that outlines are drawn out in common; as long
                       ///< as their mean elongation that way, less what chance alone would give
    cv::Point2d pull;  ///< to the darker side of them; as long as `side`
    double side = 0.0; ///< how much darker it is beside them on one side, share of the surface's
                       ///< light, in the median
    double ring = 0.0; ///< how much darker it is all round them, likewise
};

/// Way and strength of an outline's elongation about a centre: doubled angle, 0 (round) to 1 (a
/// line) long.
cv::Point2d elongationOf(const std::vector<cv::Point2d>& outline, cv::Point2d centre);

/// The same about the mean of its points.
cv::Point2d elongationOf(const std::vector<cv::Point2d>& outline);

/// From the candidates that the piece model is sure of; all zero where there are none.
/// Directions are those of the crop's pixels.
/// @param edge  width of the photo's edges, px
/// Checked: tests/debris/cast_shadows_test.cpp (drawn pieces with and without shadows).
CastShadows castShadowsOf(const ContrastField& field, const std::vector<Candidate>& candidates,
                          double edge);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"
#include "card/find_card.h"
#include "photo/photo.h"

#include <optional>

namespace swarfbook {

/// How sharp the card's edges are in the photo: 10 to 90 % widths of the edge spread, linear light.
struct Sharpness {
    Pixels edgeWidth;       ///< median over all edges read
    Pixels widestDirection; ///< the larger of the two edge directions' medians: what blurs most
    Pixels otherDirection;  ///< the smaller of the two
    int edgesRead = 0;
};

/// Reads the slanted squares as ISO 12233 reads a slanted edge: pixels are projected along the
/// fitted edge into quarter-pixel bins, in linear light; the width is taken where the spread
/// crosses 10 and 90 % of the step.
///
/// @return nullopt when fewer than 2 edges could be read.
/// Source: ISO 12233 e-SFR in short (edge spread by projection); Gaussian edge: 2.5631 sigma.
/// Checked: tests/card/sharpness_test.cpp (rendered Gaussian edges).
std::optional<Sharpness> readSharpness(const cv::Mat& bgr, const CardSighting& card);

/// 10-90 % width of one edge of the card as seen in the photo; nullopt when it cannot be read.
std::optional<Pixels> edgeWidthOf(const cv::Mat& bgr, const PlaneMapping& mapping, PointOnCard from,
                                  PointOnCard to);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"
#include "card/plane_mapping.h"

#include <opencv2/core.hpp>

#include <optional>

namespace swarfbook {

/// A black square on the card: its centre and the halves of two neighbouring sides, nominal mm.
struct SquareOnCard {
    PointOnCard centre;
    PointOnCard toRight, toBottom; ///< from the centre to the middles of two sides
};

/// Covariance of the photo's point spread between the two directions of a square's sides, px^2. It
/// distinguishes a slanting shake, which widens both directions alike, from a missed focus.
///
/// An ideal corner's light is a product of two steps, so that its mixed second difference along the
/// two sides is the point spread itself; its moments are summed. Median over the four corners.
/// @param edgeWidth  10-90 % width of the wider direction, sets the size of the field.
/// @return nullopt when fewer than two corners lie in the photo with contrast.
/// Source: derivative of a product of Heaviside steps; moments of a convolution add.
/// Checked: tests/card/sharpness_test.cpp (drawn motion at a slant).
std::optional<double> smearCovariance(const cv::Mat& bgr, const PlaneMapping& mapping,
                                      const SquareOnCard& square, Pixels edgeWidth);

} // namespace swarfbook

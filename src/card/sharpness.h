// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"
#include "card/edge_width_map.h"
#include "card/find_card.h"
#include "photo/photo.h"

#include <optional>
#include <vector>

namespace swarfbook {

/// What smears a photo.
enum class BlurCause {
    none,   ///< as sharp as a good phone photo
    motion, ///< one direction far more than the other: the phone or the card moved
    focus,  ///< all directions alike: the focus lay elsewhere, or the lens is dirty
    both
};

/// The widths of the edges of one slanted square.
struct EdgeWidthAt {
    PointOnCard at; ///< the square's centre, nominal mm
    Pixels width;   ///< of its wider direction
};

/// How sharp the card's edges are in the photo: 10 to 90 % widths of the edge spread, linear light.
struct Sharpness {
    Pixels edgeWidth;       ///< median over all edges read
    Pixels widestDirection; ///< in the direction that blurs most, median over the card
    Pixels otherDirection;  ///< in the direction square to it
    int edgesRead = 0;
    BlurCause cause = BlurCause::none;
    Degrees motion{}; ///< direction of the smear in the photo, 0 along its rows, clockwise, 0 to
                      ///< 180; said only where the cause is motion or both
    Pixels smear{};   ///< length of an even motion that would smear as much; 0 unless motion
    std::vector<EdgeWidthAt> places{};  ///< of the squares whose edges could be read
    std::optional<EdgeWidthAt> worst{}; ///< where a part of the card is clearly less sharp than the
                                        ///< rest; nothing where the photo is even
    std::optional<EdgeWidthMap> map{};  ///< where the squares differ beyond their own scatter
    std::vector<EdgeWidths> overWindow{}; ///< of that map: the window's corners, clockwise from the
                                          ///< upper left one, and its middle; else empty

    /// Edge width in the wider direction at the least sharp place of the card or window: a piece
    /// there has such edges.
    [[nodiscard]] Pixels leastSharp() const;
};

/// Reads the slanted squares as ISO 12233 reads a slanted edge: projects pixels along the fitted
/// edge into quarter-pixel bins, in linear light, and takes the width between the crossings of 10
/// and 90 % of the step.
///
/// @return nullopt when fewer than 2 edges could be read.
/// Source: ISO 12233 e-SFR in short (edge spread by projection); Gaussian edge: 2.5631 sigma.
/// Checked: tests/card/sharpness_test.cpp (rendered Gaussian edges).
std::optional<Sharpness> readSharpness(const cv::Mat& bgr, const CardSighting& card);

/// 10-90 % width of one edge of the card as seen in the photo; nullopt when it cannot be read.
std::optional<Pixels> edgeWidthOf(const cv::Mat& bgr, const PlaneMapping& mapping, PointOnCard from,
                                  PointOnCard to);

} // namespace swarfbook

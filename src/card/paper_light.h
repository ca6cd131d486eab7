// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/find_card.h"

#include <opencv2/core.hpp>

#include <array>
#include <optional>

namespace swarfbook {

/// The light on the card's own white paper, as the photo shows it.
struct PaperLight {
    /// log of linear light per channel (B, G, R) as a quadratic surface over the card:
    /// c0 + c1 x + c2 y + c3 x^2 + c4 x y + c5 y^2, x and y in units of half the window.
    std::array<cv::Vec<double, 6>, 3> surface{};
    PointOnCard centre;
    double halfWidth = 1.0, halfHeight = 1.0; ///< mm
    double clippedShare = 0.0;                ///< of the places read, at the top of the code range
    double medianCode = 0.0;                  ///< of green, 0 to 255
    double darkCode = 0.0;                    ///< median green code on the card's black
    int places = 0;

    /// Linear light (B, G, R) that white paper would send from here.
    [[nodiscard]] cv::Vec3d whiteAt(PointOnCard p) const;
};

/// Reads the paper between the printed things of the card and fits the surface, robustly.
/// @return nullopt when fewer than 30 places can be read.
std::optional<PaperLight> readPaperLight(const cv::Mat& bgr, const CardSighting& card);

} // namespace swarfbook

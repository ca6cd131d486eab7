// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/window_crop.h"

#include <opencv2/core.hpp>

namespace swarfbook {

/// One of the two photos of a place, ready to measure.
struct SurfacePhoto {
    const CalibratedPhoto& photo;
    const PreparedWindow& window;
};

/// The surface's texture as seen from above, in robust sigmas, clipped; 0 where unknown.
struct SurfaceTexture {
    cv::Mat value; ///< CV_32F
    cv::Mat mask;  ///< CV_8U
    double pxPerMm = 1.0;
    double lightness = 0.0;   ///< median, share of white paper's light
    double codes = 0.0;       ///< robust sigma, about as many 8-bit codes
    double strongShare = 0.0; ///< of the view over 5 sigmas
};

/// The part of the window that shows the surface, true mm of the card.
cv::Rect2d viewedArea(const CalibratedPhoto& photo);

/// The texture of this area, seen from above at this scale. Parts that the window left out are
/// unknown.
/// Checked: tests/debris/clean_reference_surface_test.cpp.
SurfaceTexture textureOf(const SurfacePhoto& surface, const cv::Rect2d& area, double pxPerMm);

/// Whether the surface varies so little that it shows no texture.
bool isPlain(const SurfaceTexture& texture);

} // namespace swarfbook

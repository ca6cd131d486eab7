// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/calibrated_photo.h"

#include <opencv2/core.hpp>

#include <vector>

namespace swarfbook {

/// Rough outline of a large simple shape in the window: a bar or a disc.
struct RoughShape {
    bool bar = false;    ///< else a disc
    cv::Point2d centre;  ///< true mm
    cv::Point2d along;   ///< unit; of a bar
    double width = 0.0;  ///< mm: across a bar, of a disc the diameter
    double length = 0.0; ///< mm; of a disc the diameter
};

/// Bars and discs of roughly this size in the window, found in a view from above: darker or
/// brighter than the surface round them by a fourth; a bright streak along them is bridged. Other
/// shapes are ignored.
/// @param size  mm; ignores shapes smaller than half of it or larger than twice.
/// Checked: tests/gauge/check_standard_test.cpp.
std::vector<RoughShape> roughShapes(const CalibratedPhoto& photo, double size);

} // namespace swarfbook

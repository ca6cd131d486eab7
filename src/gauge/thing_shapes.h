// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/calibrated_photo.h"

#include <opencv2/core.hpp>

#include <vector>

namespace swarfbook {

/// A large simple shape in the window, roughly: a bar or a disc.
struct RoughShape {
    bool bar = false;    ///< else a disc
    cv::Point2d centre;  ///< true mm
    cv::Point2d along;   ///< unit; of a bar
    double width = 0.0;  ///< mm: across a bar, of a disc the diameter
    double length = 0.0; ///< mm; of a disc the diameter
};

/// What stands out from the window as a bar or a disc of roughly this size, found in a view from
/// above: darker or brighter than the surface round it by a fourth, a bright streak along it
/// bridged. Other shapes are passed over.
/// @param size  mm; what is smaller than half of it or larger than twice is passed over.
/// Checked: tests/gauge/check_standard_test.cpp.
std::vector<RoughShape> roughShapes(const CalibratedPhoto& photo, double size);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "gauge/thing_shapes.h"

#include <opencv2/core.hpp>

#include <optional>
#include <vector>

namespace swarfbook {

/// One long side of a bar: place across the bar (along its normal, from the rough centre) as
/// offset + slope x place along it, true mm on the card's plane.
struct BarSide {
    double offset = 0.0, slope = 0.0;
    double scatter = 0.0;                  ///< rms of the points used, mm
    double from = 0.0, to = 0.0;           ///< along the bar
    int used = 0, tried = 0, shadowed = 0; ///< profiles: used, all, with a hard shadow's border
};

struct BarEdges {
    cv::Point2d along, normal; ///< unit, of the rough shape
    BarSide before, after;     ///< at negative and positive normal
};

/// Both long sides of a bar, sub-pixel, where at least 8 profiles a side show a sharp edge.
std::optional<BarEdges> readBarEdges(const CalibratedPhoto& photo, const RoughShape& bar);

struct DiscEdge {
    std::vector<cv::Point2d> points; ///< true mm on the card's plane
    int tried = 0, shadowed = 0;
};
/// The sharp outline of a disc, on 180 profiles from its middle outward.
DiscEdge readDiscEdge(const CalibratedPhoto& photo, const RoughShape& disc);

/// Width of a sharp edge in this photo, true mm.
double edgeWidthOnCard(const CalibratedPhoto& photo);

} // namespace swarfbook

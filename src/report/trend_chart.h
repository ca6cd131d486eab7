// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "report/drawing.h"
#include "report/report_model.h"

#include <vector>

namespace swarfbook {

/// The place of a chart and the height of its letters, in the pen's unit.
struct ChartRoom {
    Spot topLeft;
    Extent extent;
    double letter = 0.0;
};

/// Draws the wear scores of a vehicle's visits over the odometer (or, where an odometer is
/// missing, over the visits in their order), each with its 95 % interval and its visit's date. A
/// visit without a score is marked so below the axis, never drawn as zero.
void drawTrendChart(cairo_t* pen, const ChartRoom& room,
                    const std::vector<ReportedTrendPoint>& points);

/// How many of the visits have a score; a chart needs two.
long scoredVisits(const std::vector<ReportedTrendPoint>& points);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "report/drawing.h"
#include "report/report_model.h"

#include <vector>

namespace swarfbook {

/// Draws the wear scores of a vehicle's visits over the odometer (or, where an odometer is
/// missing, over the visits in their order), each with its 95 % interval and its visit's date. A
/// visit without a score is marked so below the axis, never drawn as zero.
///
/// @param topLeft, room  where, in the pen's unit; letters are `letter` high.
void drawTrendChart(cairo_t* pen, Spot topLeft, Extent room,
                    const std::vector<ReportedTrendPoint>& points, double letter);

/// How many of the visits have a score: a chart of fewer than two shows nothing.
long scoredVisits(const std::vector<ReportedTrendPoint>& points);

} // namespace swarfbook

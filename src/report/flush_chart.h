// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/flush_series.h"
#include "report/trend_chart.h"

namespace swarfbook {

/// Draws the passes of a flush as bars, each with its count above it and its number, step and share
/// of all so far below it. A pass that was not counted has no bar and says so.
void drawFlushChart(cairo_t* pen, const ChartRoom& room, const FlushSeries& series);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "report/drawing.h"

#include <vector>

namespace swarfbook {

/// Adds a closed polygon to the pen's path.
void tracePolygon(cairo_t* pen, const std::vector<Spot>& polygon);

/// Hatches a polygon with dark and light diagonals and a dashed edge: visible on any ground, and
/// the picture under it still shows. `em` sets spacing and widths.
void hatch(cairo_t* pen, const std::vector<Spot>& polygon, double em);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"
#include "card/layout.h"

#include <opencv2/core.hpp>

#include <optional>
#include <vector>

namespace swarfbook {

/// Edge widths read at one slanted square, px, by the direction in which they are smeared.
struct SquareWidths {
    PointOnCard centre;                 ///< nominal mm
    std::vector<double> alongX, alongY; ///< of the edges square to it: two each where all are read
};

/// Edge widths at one place.
struct EdgeWidths {
    PointOnCard at; ///< nominal mm
    Pixels alongX, alongY;

    [[nodiscard]] Pixels wider() const { return std::max(alongX, alongY); }
};

/// How the edge width changes over the card: bilinear between four squares, a plane through three.
class EdgeWidthMap {
  public:
    /// @return nullopt where fewer than three squares show both directions, or where they differ no
    ///         more than opposite edges of one square do (F test of the squares' means against that
    ///         scatter, 1 %, in neither direction). An edge half as wide again as the one across
    ///         has something lying on it and is passed over.
    /// Source: analysis of variance with one factor, Montgomery, Design and Analysis of
    /// Experiments, chapter 3. Checked: tests/card/edge_width_map_test.cpp.
    static std::optional<EdgeWidthMap> through(const std::vector<SquareWidths>& squares);

    [[nodiscard]] EdgeWidths at(PointOnCard p) const;
    /// At the four corners of the window, from the upper left one clockwise, and in its middle.
    [[nodiscard]] std::vector<EdgeWidths> over(const CardRect& window) const;

  private:
    PointOnCard middle_;
    cv::Vec4d alongX_, alongY_; ///< 1, x, y, x y from the middle, mm
};

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <opencv2/core.hpp>

#include <optional>
#include <vector>

namespace swarfbook {

/// A rectangle with round corners; a disc is one whose corners are half its sides. All in mm.
struct OutlineShape {
    cv::Point2d centre;
    double width = 0.0, height = 0.0;
    double angle = 0.0;  ///< radians from x to the width's direction
    double corner = 0.0; ///< radius

    [[nodiscard]] bool round() const { return 2.0 * corner >= width && 2.0 * corner >= height; }
    [[nodiscard]] double perimeter() const;
    [[nodiscard]] double area() const;
};

/// A point in relation to the outline: how far outside it lies (negative inside), how far along the
/// rim the nearest point of the rim lies, and the outward direction (on the card).
struct ByOutline {
    double outside = 0.0;
    double along = 0.0; ///< 0 up to the perimeter
    cv::Point2d outward;
};

/// Finds points in relation to one outline; made once, used often.
class OutlineFrame {
  public:
    explicit OutlineFrame(const OutlineShape& shape);
    [[nodiscard]] double outside(cv::Point2d p) const;
    [[nodiscard]] ByOutline lookUp(cv::Point2d p) const;

  private:
    OutlineShape shape_;
    double cos_, sin_, halfWidth_, halfHeight_; ///< halves of the straight parts
};

/// The same shape, `by` smaller on every side (larger when negative).
OutlineShape inset(const OutlineShape& shape, double by);
/// The shape enlarged about a fixed point.
OutlineShape enlarged(const OutlineShape& shape, cv::Point2d about, double times);
/// Closed polygon of the outline, a point at least every `step` mm.
std::vector<cv::Point2d> polygonOf(const OutlineShape& shape, double step);

struct FittedShape {
    OutlineShape shape;
    double medianError = 0.0; ///< median distance of the points from it
};

/// Fits a disc and a rectangle to points of a rim, robustly, and gives the better one.
/// @param points  at least 12, mm. Throws std::logic_error for fewer.
/// @param saidRound  what it was said to be; that one is given unless it fits the points worse by
///                   more than half a millimetre: fuzz makes a block's corners round.
/// Checked: tests/magnet/outline_shape_test.cpp (points of known shapes).
FittedShape fitOutline(const std::vector<cv::Point2d>& points,
                       std::optional<bool> saidRound = std::nullopt);

} // namespace swarfbook

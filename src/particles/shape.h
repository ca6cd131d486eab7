// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"

#include <opencv2/core.hpp>

#include <optional>
#include <span>
#include <vector>

namespace swarfbook {

/// Sizes and shape of one closed outline, all in the outline's own unit of length.
struct Shape {
    cv::Point2d centroid; ///< of the enclosed area
    double area = 0.0;
    double perimeter = 0.0;
    double maxFeret = 0.0; ///< largest distance between parallel tangents
    double minFeret = 0.0; ///< smallest one
    double convexArea = 0.0;
    double convexPerimeter = 0.0;
    double width = 0.0, height = 0.0; ///< extents along x and y
    /// Length along a bent or curled piece; = maxFeret of a compact one.
    double length = 0.0;

    [[nodiscard]] double areaEquivalentDiameter() const; ///< x_A = 2 sqrt(A / pi)
    [[nodiscard]] double aspectRatio() const;            ///< x_Fmin / x_Fmax, 0 to 1
    [[nodiscard]] double solidity() const;               ///< A / A_convex, 0 to 1
    [[nodiscard]] double convexity() const;              ///< P_convex / P, 0 to 1
    [[nodiscard]] double formFactor() const;             ///< FF = 4 pi A / P^2
    [[nodiscard]] double circularity() const;            ///< C = sqrt(FF)
    [[nodiscard]] double compactness() const;            ///< x_A / x_Fmax
    [[nodiscard]] double straightness() const;           ///< x_Fmax / length, 0 to 1
};

/// Measures a closed outline: the polygon as given, its last point joined to the first.
///
/// @param outline  at least one point, either sense of rotation, in any plane unit; sub-pixel
///                 points are taken as they are (no half pixel is added).
/// @return area and centroid by the shoelace formula; Feret diameters over the convex hull. Of an
///         outline without area (a point, a line) the centroid is the mean of its points.
///         Throws std::logic_error if it is empty.
///
/// `length` is the geodesic length x_LG of ISO 9276-6 wherever the piece is not compact (solidity
/// under 0.8). A ragged outline has too long a perimeter, so that x_LG is taken from the outline
/// after removing steps lower than 15 % of the piece's mean thickness (Douglas-Peucker), and is
/// never below maxFeret.
/// Source: ISO 13322-1 and ISO 9276-6 (definitions); formulas as in the descriptor's own line.
/// Checked: tests/particles/shape_test.cpp (closed forms), tests/particles/regionprops_test.cpp.
Shape measureShape(std::span<const cv::Point2d> outline);
Shape measureShape(const std::vector<PointOnCard>& outline);

/// Geodesic length and thickness of ISO 9276-6: A = x_E x_LG and P = 2 (x_E + x_LG).
struct GeodesicSize {
    double length = 0.0;    ///< x_LG
    double thickness = 0.0; ///< x_E
};

/// x_LG, x_E = P/4 +- sqrt(P^2/16 - A); nullopt where P^2/16 < A: rounder than any rectangle.
std::optional<GeodesicSize> geodesicSize(double area, double perimeter);

} // namespace swarfbook

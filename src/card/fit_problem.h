// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/edge_points.h"
#include "card/plane_mapping.h"

#include <opencv2/core.hpp>

#include <vector>

namespace swarfbook {

/// How far edge points lie from their edges under a mapping with these parameters: homography
/// (8, of conditioned card coordinates), k1, k2 and the ink's growth in mm.
/// Checked: tests/reference/lens_test.cpp, markers_on_a_plane_test.cpp.
struct FitProblem {
    static constexpr int parameters = 11;
    using Vector = cv::Vec<double, parameters>;
    using Square = cv::Matx<double, parameters, parameters>;

    const std::vector<CardEdge>& edges;
    const std::vector<EdgePoint>& points;
    PlaneMapping start; ///< centre and focal are kept
    cv::Matx33d normalFromCard;

    [[nodiscard]] PlaneMapping mappingOf(const Vector& p) const;
    [[nodiscard]] Vector parametersOf(const PlaneMapping& m) const;

    /// Signed distances of the points from their edges, px, outward positive.
    [[nodiscard]] std::vector<double> distances(const Vector& p) const {
        return distances(p, undistorted(p));
    }

    /// Rows of the Jacobian, by forward differences from `here`, the distances at p.
    [[nodiscard]] std::vector<Vector> jacobian(const Vector& p,
                                               const std::vector<double>& here) const;

  private:
    /// The points as a lens without distortion would show them, normalised by focal and centre.
    [[nodiscard]] std::vector<cv::Point2d> undistorted(const Vector& p) const;
    [[nodiscard]] std::vector<double> distances(const Vector& p,
                                                const std::vector<cv::Point2d>& straight) const;
};

} // namespace swarfbook

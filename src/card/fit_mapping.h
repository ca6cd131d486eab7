// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/bend_fit.h"
#include "card/edge_points.h"
#include "card/plane_mapping.h"

#include <set>
#include <vector>

namespace swarfbook {

/// Result of fitting the mapping to edge points.
struct MappingFit {
    PlaneMapping mapping;
    double inkGrowth = 0.0;      ///< mm, outward
    Pixels residual;             ///< rms of the inliers' distances to their edges
    double scaleUPercent = 0.0;  ///< standard uncertainty of a length over the window
    std::set<int> owners;        ///< markers and squares (negative) that agree with the fit
    BendFit bend;                ///< what a bend explains of the offsets
    std::vector<double> offsets; ///< signed distance of each point from its edge, px, outward
};

/// Fits homography, k1, k2 and the ink's growth to edge points: iteratively reweighted least
/// squares (Huber) with Levenberg damping; then markers whose own median distance is far outside
/// the others' are dropped and the rest fitted again.
///
/// @param edges, points  as from findEdgePoints; at least 16 points.
/// @param start          centre and focal are kept, the rest is refined.
/// @param window         where scaleUPercent is asked for, nominal mm.
/// The covariance is cluster-robust by edge (points of one edge share their errors):
/// Cameron, Gelbach and Miller 2011, eq. 2.
MappingFit fitMapping(const std::vector<CardEdge>& edges, const std::vector<EdgePoint>& points,
                      const PlaneMapping& start, const CardRect& window);

/// The mapping of that fit alone: what a closer search for edge points starts from.
PlaneMapping mappingThrough(const std::vector<CardEdge>& edges,
                            const std::vector<EdgePoint>& points, const PlaneMapping& start,
                            const CardRect& window);

} // namespace swarfbook

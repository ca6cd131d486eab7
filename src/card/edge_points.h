// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/layout.h"
#include "card/plane_mapping.h"
#include "photo/photo.h"

#include <optional>
#include <vector>

namespace swarfbook {

/// One straight black-to-white edge drawn on the card: from a to b, black on the right-hand side
/// of the walk a -> b (y down), so that `outward` (unit, mm) points to the white.
struct CardEdge {
    int owner = 0; ///< marker id; slanted squares are -1, -2, ...
    PointOnCard a, b;
    PointOnCard outward;
};

/// A point of an edge seen in the photo: where the light crosses half way from black to white.
struct EdgePoint {
    int edge = 0; ///< index into the edges given
    PointInPhoto at;
};

/// The outlines of all markers and slanted squares of a layout.
std::vector<CardEdge> edgesOfCard(const CardLayout& layout);

/// Linear light (green-weighted luma) of the photo at a sub-pixel place, bilinear; nullopt outside.
std::optional<float> lightAt(const cv::Mat& bgr, PointInPhoto p);

/// Profiles across an edge.
struct EdgeSearch {
    Pixels reach;     ///< half length of a profile, shortened to 70 % of an eighth of the edge
    int perEdge = 24; ///< profiles an edge
};

/// Half-level crossings along profiles across the edges, where the mapping expects them.
///
/// @param edges       to look for.
/// @param mapping     near enough that the edge lies within `reach` of the place expected.
/// @param search      how far and how often to look.
/// @return up to search.perEdge points an edge; none if the contrast is too low or the edge is out
///         of sight.
std::vector<EdgePoint> findEdgePoints(const cv::Mat& bgr, const std::vector<CardEdge>& edges,
                                      const PlaneMapping& mapping, const EdgeSearch& search);

} // namespace swarfbook

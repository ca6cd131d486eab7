// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/edge_points.h"

#include "photo/linear_light.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace swarfbook {
namespace {

constexpr double endShare = 0.1; // of an edge's length left out at each end: corners are round

void addSquare(std::vector<CardEdge>& edges, int owner, PointOnCard centre,
               std::pair<double, double> sideAndTurn) {
    const double half = sideAndTurn.first / 2.0;
    const double turn = sideAndTurn.second * CV_PI / 180.0; // clockwise as seen, y down
    const double c = std::cos(turn);
    const double s = std::sin(turn);
    const auto corner = [&](double x, double y) {
        return PointOnCard{centre.x + c * x - s * y, centre.y + s * x + c * y};
    };
    const std::array<PointOnCard, 4> corners{corner(-half, -half), corner(half, -half),
                                             corner(half, half), corner(-half, half)};
    const std::array<PointOnCard, 4> outward{PointOnCard{s, -c}, PointOnCard{c, s},
                                             PointOnCard{-s, c}, PointOnCard{-c, -s}};
    for (std::size_t i = 0; i < 4; ++i)
        edges.push_back({owner, corners[i], corners[(i + 1) % 4], outward[i]});
}

/// Place where the profile crosses half way between its dark and bright ends; nullopt if it does
/// not look like a single edge.
std::optional<double> halfLevelCrossing(const std::vector<float>& profile) {
    const std::size_t n = profile.size();
    const std::size_t tail = std::max<std::size_t>(2, n / 5);
    double dark = 0.0;
    double bright = 0.0;
    for (std::size_t i = 0; i < tail; ++i) {
        dark += profile[i];
        bright += profile[n - 1 - i];
    }
    dark /= static_cast<double>(tail);
    bright /= static_cast<double>(tail);
    if (bright < 0.01 || bright - dark < 0.35 * bright)
        return std::nullopt;
    const double half = (dark + bright) / 2.0;
    std::optional<double> found;
    for (std::size_t i = 0; i + 1 < n; ++i)
        if (profile[i] < half && profile[i + 1] >= half) {
            if (found)
                return std::nullopt;
            found = static_cast<double>(i) +
                    (half - profile[i]) / static_cast<double>(profile[i + 1] - profile[i]);
        }
    return found;
}

} // namespace

std::vector<CardEdge> edgesOfCard(const CardLayout& layout) {
    std::vector<CardEdge> edges;
    for (const auto& [id, centre] : layout.markers)
        addSquare(edges, id, centre, {layout.markerSize, 0.0});
    int owner = -1;
    for (const PointOnCard centre : layout.slantedCentres)
        addSquare(edges, owner--, centre, {layout.slantedSize, layout.slantedTurnDeg});
    return edges;
}

std::optional<float> lightAt(const cv::Mat& bgr, PointInPhoto p) {
    const int u = static_cast<int>(std::floor(p.u));
    const int v = static_cast<int>(std::floor(p.v));
    if (u < 0 || v < 0 || u + 1 >= bgr.cols || v + 1 >= bgr.rows)
        return std::nullopt;
    const auto& linear = linearFromSrgb();
    const auto light = [&](int x, int y) {
        const auto& c = bgr.at<cv::Vec3b>(y, x);
        return 0.0722F * linear[c[0]] + 0.7152F * linear[c[1]] + 0.2126F * linear[c[2]];
    };
    const float fu = static_cast<float>(p.u - u);
    const float fv = static_cast<float>(p.v - v);
    return (1 - fv) * ((1 - fu) * light(u, v) + fu * light(u + 1, v)) +
           fv * ((1 - fu) * light(u, v + 1) + fu * light(u + 1, v + 1));
}

namespace {

double lengthOf(const CardEdge& edge) {
    return std::hypot(edge.b.x - edge.a.x, edge.b.y - edge.a.y);
}

/// A straight line in the photo across an edge, from the edge outward.
struct Across {
    PointInPhoto at; ///< where the edge is expected
    double nu = 0.0, nv = 0.0;
    double half = 0.0; ///< px to either side

    [[nodiscard]] PointInPhoto place(double off) const {
        return {at.u + off * nu, at.v + off * nv};
    }
};

/// Across the edge at the share t of its length; nullopt where the mapping has no direction.
std::optional<Across> acrossEdge(const CardEdge& edge, double t, const PlaneMapping& mapping,
                                 Pixels reach) {
    const double length = lengthOf(edge);
    const PointOnCard on{edge.a.x + t * (edge.b.x - edge.a.x),
                         edge.a.y + t * (edge.b.y - edge.a.y)};
    const PointInPhoto at = mapping.photoFromCard(on);
    // A line's normal maps by the inverse transpose: take it from the edge's own direction.
    const double d = 0.01 * length;
    const PointInPhoto along = mapping.photoFromCard(
        {on.x + d * (edge.b.x - edge.a.x) / length, on.y + d * (edge.b.y - edge.a.y) / length});
    const PointInPhoto outer =
        mapping.photoFromCard({on.x + d * edge.outward.x, on.y + d * edge.outward.y});
    double nu = -(along.v - at.v);
    double nv = along.u - at.u;
    if (nu * (outer.u - at.u) + nv * (outer.v - at.v) < 0.0) {
        nu = -nu;
        nv = -nv;
    }
    const double norm = std::hypot(nu, nv);
    if (!(norm > 0.0))
        return std::nullopt;
    const double module = mapping.scaleAt(on).value() * length / 8.0;
    return Across{at, nu / norm, nv / norm, std::min(reach.value(), 0.7 * module)};
}

/// Where the light crosses half its level; nullopt where it leaves the picture or does not cross.
std::optional<PointInPhoto> crossingAlong(const cv::Mat& bgr, const Across& across) {
    constexpr double step = 0.5; // px between samples of a profile
    const int n = static_cast<int>(std::lround(2.0 * across.half / step)) + 1;
    if (n < 8)
        return std::nullopt;
    std::vector<float> profile;
    for (int i = 0; i < n; ++i) {
        const auto light = lightAt(bgr, across.place(-across.half + i * step));
        if (!light)
            return std::nullopt;
        profile.push_back(*light);
    }
    const auto crossing = halfLevelCrossing(profile);
    if (!crossing)
        return std::nullopt;
    return across.place(-across.half + *crossing * step);
}

} // namespace

std::vector<EdgePoint> findEdgePoints(const cv::Mat& bgr, const std::vector<CardEdge>& edges,
                                      const PlaneMapping& mapping, const EdgeSearch& search) {
    std::vector<EdgePoint> points;
    for (std::size_t e = 0; e < edges.size(); ++e)
        for (int k = 0; k < search.perEdge; ++k) {
            const double t = endShare + (1.0 - 2.0 * endShare) * (k + 0.5) / search.perEdge;
            const auto across = acrossEdge(edges[e], t, mapping, search.reach);
            if (!across)
                continue;
            if (const auto crossing = crossingAlong(bgr, *across))
                points.push_back({static_cast<int>(e), *crossing});
        }
    return points;
}

} // namespace swarfbook

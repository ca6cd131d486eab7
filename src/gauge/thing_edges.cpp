// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "gauge/thing_edges.h"

#include "base/median.h"
#include "card/edge_points.h"
#include "gauge/sharp_edge.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace swarfbook {
namespace {

constexpr double stepPx = 0.25;   // between samples of a profile
constexpr double endShare = 0.08; // of a bar left out at each end: chamfers and corners
constexpr int mostProfiles = 160; // a side

/// Where a profile runs: from the thing's middle outward, both unit vectors on the card's plane.
struct ProfileLine {
    cv::Point2d middle, outward, beside;
};

/// Distance from the line's middle to the outermost sharp edge, mm; nothing where there is none.
std::optional<SharpEdge> edgeOn(const CalibratedPhoto& photo, const ProfileLine& line,
                                double half) {
    const double mmPerPx = 1.0 / photo.trueScale().value();
    EdgeProfile profile;
    profile.edgeWidth = edgeWidthOnCard(photo);
    profile.step = stepPx * mmPerPx;
    const double start = std::max(0.2 * half, half - 6.0 * profile.edgeWidth);
    const double end = 1.3 * half + 4.0 * profile.edgeWidth;
    for (double at = start; at < end; at += profile.step) {
        double sum = 0.0;
        for (int k = -1; k <= 1; ++k) {
            const cv::Point2d p = line.middle + at * line.outward + (k * mmPerPx) * line.beside;
            const auto light = lightAt(photo.bgr, photo.photoFromTrue({p.x, p.y}));
            if (!light)
                return std::nullopt;
            sum += *light;
        }
        profile.light.push_back(sum / 3.0);
    }
    auto edge = outermostSharpEdge(profile);
    if (edge)
        edge->at += start;
    return edge;
}

struct SidePoint {
    double along, across;
};

/// Straight line by least squares.
void fitLine(const std::vector<SidePoint>& points, BarSide& side) {
    double n = 0.0, x = 0.0, y = 0.0;
    for (const SidePoint& p : points) {
        n += 1.0;
        x += p.along;
        y += p.across;
    }
    x /= n;
    y /= n;
    double xx = 0.0, xy = 0.0;
    for (const SidePoint& p : points) {
        xx += (p.along - x) * (p.along - x);
        xy += (p.along - x) * (p.across - y);
    }
    side.slope = xx > 0.0 ? xy / xx : 0.0;
    side.offset = y - side.slope * x;
}

double offLine(const BarSide& side, const SidePoint& p) {
    return p.across - side.offset - side.slope * p.along;
}

/// The line that most points agree with: the median of all pairwise slopes (Theil and Sen) as a
/// start, then least squares over what lies within three robust standard deviations.
bool fitSide(const std::vector<SidePoint>& points, BarSide& side) {
    if (points.size() < 8)
        return false;
    std::vector<double> slopes, offsets;
    for (std::size_t i = 0; i < points.size(); ++i)
        for (std::size_t j = i + points.size() / 4; j < points.size(); ++j)
            if (points[j].along != points[i].along)
                slopes.push_back((points[j].across - points[i].across) /
                                 (points[j].along - points[i].along));
    side.slope = upperMedianOf(slopes);
    for (const SidePoint& p : points)
        offsets.push_back(p.across - side.slope * p.along);
    side.offset = upperMedianOf(offsets);
    std::vector<SidePoint> used = points;
    for (int round = 0; round < 5; ++round) {
        std::vector<double> off;
        for (const SidePoint& p : points)
            off.push_back(std::abs(offLine(side, p)));
        const double limit = std::max(3.0 * 1.4826 * upperMedianOf(off), 1e-6);
        used.clear();
        for (std::size_t i = 0; i < points.size(); ++i)
            if (off[i] <= limit)
                used.push_back(points[i]);
        fitLine(used, side);
    }
    double squares = 0.0;
    for (const SidePoint& p : used)
        squares += std::pow(offLine(side, p), 2);
    side.used = static_cast<int>(used.size());
    side.scatter = std::sqrt(squares / static_cast<double>(used.size()));
    side.from = used.front().along;
    side.to = used.back().along;
    return used.size() >= 8;
}

} // namespace

double edgeWidthOnCard(const CalibratedPhoto& photo) {
    return (photo.sharpness.widestDirection / photo.trueScale()).value();
}

std::optional<BarEdges> readBarEdges(const CalibratedPhoto& photo, const RoughShape& bar) {
    BarEdges edges;
    edges.along = bar.along;
    edges.normal = {-bar.along.y, bar.along.x};
    const double length = (1.0 - 2.0 * endShare) * bar.length;
    const int count =
        std::clamp(static_cast<int>(length * photo.trueScale().value() / 3.0), 8, mostProfiles);
    for (const int sign : {-1, 1}) {
        BarSide& side = sign < 0 ? edges.before : edges.after;
        std::vector<SidePoint> points;
        for (int i = 0; i < count; ++i) {
            const double along = length * ((i + 0.5) / count - 0.5);
            const ProfileLine line{bar.centre + along * edges.along, sign * edges.normal,
                                   edges.along};
            const auto edge = edgeOn(photo, line, bar.width / 2.0);
            if (!edge)
                continue;
            points.push_back({along, sign * edge->at});
            side.shadowed += edge->secondStep ? 1 : 0;
        }
        side.tried = count;
        if (!fitSide(points, side))
            return std::nullopt;
    }
    return edges;
}

DiscEdge readDiscEdge(const CalibratedPhoto& photo, const RoughShape& disc) {
    DiscEdge out;
    constexpr int profiles = 180;
    for (int i = 0; i < profiles; ++i) {
        const double turn = 2.0 * std::numbers::pi * i / profiles;
        const cv::Point2d outward(std::cos(turn), std::sin(turn));
        const auto edge =
            edgeOn(photo, {disc.centre, outward, {-outward.y, outward.x}}, disc.width / 2.0);
        ++out.tried;
        if (!edge)
            continue;
        out.points.push_back(disc.centre + edge->at * outward);
        out.shadowed += edge->secondStep ? 1 : 0;
    }
    return out;
}

} // namespace swarfbook

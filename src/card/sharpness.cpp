// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/sharpness.h"

#include "card/edge_points.h"
#include "photo/linear_light.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

namespace swarfbook {
namespace {

constexpr double binsPerPixel = 4.0;

double medianOf(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

struct Line { ///< unit normal n and offset: n . p = c
    double nu = 0.0, nv = 0.0, c = 0.0;
};

Line lineThrough(const std::vector<EdgePoint>& points) {
    std::vector<cv::Point2f> at;
    for (const EdgePoint& p : points)
        at.emplace_back(static_cast<float>(p.at.u), static_cast<float>(p.at.v));
    cv::Vec4f fitted;
    cv::fitLine(at, fitted, cv::DIST_HUBER, 0, 0.01, 0.01);
    const double nu = -fitted[1];
    const double nv = fitted[0];
    return {nu, nv, nu * fitted[2] + nv * fitted[3]};
}

/// Edge spread over [-reach, reach] px in quarter-pixel bins; empty bins are filled from before.
std::vector<double> edgeSpread(const cv::Mat& bgr, const Line& line, PointInPhoto a, PointInPhoto b,
                               double reach) {
    const int bins = static_cast<int>(2.0 * reach * binsPerPixel);
    std::vector<double> sum(static_cast<std::size_t>(bins), 0.0);
    std::vector<int> count(static_cast<std::size_t>(bins), 0);
    const double length = std::hypot(b.u - a.u, b.v - a.v);
    const double du = (b.u - a.u) / length;
    const double dv = (b.v - a.v) / length;
    const int u0 = std::max(0, static_cast<int>(std::min(a.u, b.u) - reach));
    const int u1 = std::min(bgr.cols - 2, static_cast<int>(std::max(a.u, b.u) + reach) + 1);
    const int v0 = std::max(0, static_cast<int>(std::min(a.v, b.v) - reach));
    const int v1 = std::min(bgr.rows - 2, static_cast<int>(std::max(a.v, b.v) + reach) + 1);
    const auto& linear = linearFromSrgb();
    for (int v = v0; v <= v1; ++v) {
        const auto* row = bgr.ptr<cv::Vec3b>(v);
        for (int u = u0; u <= u1; ++u) {
            const double along = ((u - a.u) * du + (v - a.v) * dv) / length;
            const double off = line.nu * u + line.nv * v - line.c;
            const int bin = static_cast<int>(std::floor((off + reach) * binsPerPixel));
            if (along < 0.15 || along > 0.85 || bin < 0 || bin >= bins)
                continue;
            const auto& c = row[u];
            sum[static_cast<std::size_t>(bin)] +=
                0.0722F * linear[c[0]] + 0.7152F * linear[c[1]] + 0.2126F * linear[c[2]];
            ++count[static_cast<std::size_t>(bin)];
        }
    }
    std::vector<double> spread;
    for (std::size_t i = 0; i < sum.size(); ++i)
        if (count[i] > 0)
            spread.push_back(sum[i] / count[i]);
        else if (!spread.empty())
            spread.push_back(spread.back());
        else
            return {};
    return spread;
}

std::optional<double> width10to90(std::vector<double> spread) {
    const std::size_t n = spread.size();
    if (n < 24)
        return std::nullopt;
    const auto tail = static_cast<std::ptrdiff_t>(n / 6);
    double first = medianOf({spread.begin(), spread.begin() + tail});
    double last = medianOf({spread.end() - tail, spread.end()});
    if (first > last) {
        std::reverse(spread.begin(), spread.end());
        std::swap(first, last);
    }
    if (last < 0.005 || last - first < 0.3 * last)
        return std::nullopt;
    const auto level = [&](double share) { return first + share * (last - first); };
    std::size_t middle = 0;
    while (middle < n && spread[middle] < level(0.5))
        ++middle;
    const auto crossing = [&](double share, int direction) -> std::optional<double> {
        for (auto i = static_cast<std::ptrdiff_t>(middle);
             i > 0 && i < static_cast<std::ptrdiff_t>(n); i += direction) {
            const double a = spread[static_cast<std::size_t>(i - 1)];
            const double b = spread[static_cast<std::size_t>(i)];
            if (a <= level(share) && b > level(share))
                return static_cast<double>(i - 1) + (level(share) - a) / (b - a);
        }
        return std::nullopt;
    };
    const auto low = crossing(0.1, -1);
    const auto high = crossing(0.9, 1);
    if (!low || !high)
        return std::nullopt;
    return (*high - *low) / binsPerPixel;
}

} // namespace

std::optional<Pixels> edgeWidthOf(const cv::Mat& bgr, const PlaneMapping& mapping, PointOnCard from,
                                  PointOnCard to) {
    CardEdge edge{0, from, to, {}};
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    edge.outward = {(to.y - from.y) / length, -(to.x - from.x) / length};
    const PointInPhoto a = mapping.photoFromCard(from);
    const PointInPhoto b = mapping.photoFromCard(to);
    const double sidePx = std::hypot(b.u - a.u, b.v - a.v);
    const double reach = std::min(0.35 * sidePx, 48.0);
    const auto points = findEdgePoints(bgr, {edge}, mapping, {Pixels(reach), 16});
    if (points.size() < 8)
        return std::nullopt;
    const auto width = width10to90(edgeSpread(bgr, lineThrough(points), a, b, reach));
    if (!width)
        return std::nullopt;
    return Pixels(*width);
}

std::optional<Sharpness> readSharpness(const cv::Mat& bgr, const CardSighting& card) {
    std::vector<double> all;
    std::vector<double> across;
    std::vector<double> down;
    const auto edges = edgesOfCard(card.layout);
    for (const CardEdge& e : edges) {
        if (e.owner >
            0) // markers stand square on the card: only slanted edges cross the pixel rows
            continue;
        if (const auto width = edgeWidthOf(bgr, card.mapping, e.a, e.b)) {
            all.push_back(width->value());
            (std::abs(e.b.x - e.a.x) > std::abs(e.b.y - e.a.y) ? across : down)
                .push_back(width->value());
        }
    }
    if (all.size() < 2)
        return std::nullopt;
    Sharpness s;
    s.edgesRead = static_cast<int>(all.size());
    s.edgeWidth = Pixels(medianOf(all));
    const double a = across.empty() ? s.edgeWidth.value() : medianOf(across);
    const double d = down.empty() ? s.edgeWidth.value() : medianOf(down);
    s.widestDirection = Pixels(std::max(a, d));
    s.otherDirection = Pixels(std::min(a, d));
    return s;
}

} // namespace swarfbook

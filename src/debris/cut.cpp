// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/cut.h"

#include "debris/cut_features.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

namespace swarfbook {
namespace {

constexpr std::size_t fewestOutlinePoints = 12;
constexpr std::size_t mostBays = 160; // points of an outline at which bays are sought
constexpr std::size_t mostLikely = 6; // cuts that are told of
constexpr std::size_t mostTried = 60;
constexpr int smallestSidePx = 8;
constexpr int largestBoxPx = 160000; // a heap of that size is no pair of pieces, and costly
constexpr double leastWorth = 0.08;  // of a cut's length: how far both ends bend inwards
constexpr double longestOf = 2.0;    // the small side's side if it were a square
constexpr double leastBayPx = 0.15;  // the one end bends inwards so far ...
constexpr double leastBothPx = 0.3;  // ... and both together
constexpr double leastReachPx = 2.0; // from a bay to its shores ...
constexpr std::array<double, 3> reaches{0.04, 0.08, 0.14}; // ... of the outline's length
constexpr int outlineRim = 2;           // px beyond the mask's own that an outline reaches, at most
constexpr std::size_t apartAtLeast = 3; // points between a cut's ends, either way round

double crossOf(const cv::Point2d& a, const cv::Point2d& b) {
    return a.x * b.y - a.y * b.x;
}

/// Every so many points of an outline, and how far it bends inwards there.
struct Bays {
    std::vector<std::size_t> index; ///< in the outline
    std::vector<cv::Point2d> at;
    std::vector<double> depth; ///< px; negative where it bulges
};

/// How far point `i` lies inside the line between the points `reach` before and after it.
double depthAt(const std::vector<cv::Point2d>& at, std::size_t i, std::size_t reach) {
    const std::size_t n = at.size();
    const cv::Point2d a = at[(i + n - reach) % n], b = at[(i + reach) % n];
    return crossOf(b - a, at[i] - a) / std::max(cv::norm(b - a), 1e-3);
}

Bays baysOf(std::span<const cv::Point2d> outline) {
    Bays bays;
    const std::size_t step = (outline.size() + mostBays - 1) / mostBays;
    for (std::size_t i = 0; i < outline.size(); i += step) {
        bays.index.push_back(i);
        bays.at.push_back(outline[i]);
    }
    const std::size_t n = bays.at.size();
    double twiceArea = 0.0, perimeter = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
        const cv::Point2d& next = bays.at[(i + 1) % n];
        twiceArea += crossOf(bays.at[i], next);
        perimeter += cv::norm(bays.at[i] - next);
    }
    const double sense = twiceArea > 0.0 ? 1.0 : -1.0;
    const double spacing = std::max(perimeter / static_cast<double>(n), 0.1);
    for (std::size_t i = 0; i < n; ++i) {
        double most = -perimeter;
        for (const double share : reaches) {
            const double points = std::max(leastReachPx, share * perimeter) / spacing;
            const auto reach = static_cast<std::size_t>(
                std::clamp(std::lround(points), 1L, static_cast<long>(n / 4 + 1)));
            most = std::max(most, sense * depthAt(bays.at, i, reach));
        }
        bays.depth.push_back(most);
    }
    return bays;
}

bool isDeepest(const Bays& bays, std::size_t i) {
    const std::size_t n = bays.depth.size();
    return bays.depth[i] > leastBayPx && bays.depth[i] >= bays.depth[(i + 1) % n] &&
           bays.depth[i] >= bays.depth[(i + n - 1) % n];
}

/// A cut's ends among the bays.
struct Ends {
    std::size_t i = 0, j = 0;
    double worth = 0.0; ///< deep bays, short cut
};

std::vector<Ends> endsOf(const Bays& bays, double edge) {
    std::vector<Ends> all;
    const std::size_t n = bays.at.size();
    for (std::size_t i = 0; i < n; ++i) {
        if (!isDeepest(bays, i))
            continue;
        for (std::size_t j = 0; j < n; ++j) {
            const std::size_t apart = i < j ? j - i : i - j;
            const double depth = bays.depth[i] + bays.depth[j];
            if (apart < apartAtLeast || apart + apartAtLeast > n || depth < leastBothPx)
                continue;
            const double length = cv::norm(bays.at[i] - bays.at[j]);
            if (depth < leastWorth * length)
                continue;
            all.push_back({std::min(i, j), std::max(i, j), depth / (length + 0.5 * edge)});
        }
    }
    std::sort(all.begin(), all.end(), [](const Ends& a, const Ends& b) {
        return std::tie(b.worth, a.i, a.j) < std::tie(a.worth, b.i, b.j);
    });
    return all;
}

bool areNear(std::size_t a, std::size_t b, std::size_t n) {
    const std::size_t apart = a < b ? b - a : a - b;
    return std::min(apart, n - apart) <= n / 16 + 1;
}

bool nearlySame(const Ends& a, const Ends& b, std::size_t n) {
    return (areNear(a.i, b.i, n) && areNear(a.j, b.j, n)) ||
           (areNear(a.i, b.j, n) && areNear(a.j, b.i, n));
}

/// Pixels of the box between two places in the crop.
std::vector<cv::Point> pixelsBetween(const cv::Point2d& a, const cv::Point2d& b,
                                     const cv::Rect& box) {
    std::vector<cv::Point> pixels;
    const int steps = std::max(2, static_cast<int>(std::ceil(2.0 * cv::norm(a - b))));
    for (int k = 0; k <= steps; ++k) {
        const cv::Point2d p = a + (b - a) * (static_cast<double>(k) / steps);
        const cv::Point at(static_cast<int>(std::lround(p.x)) - box.x,
                           static_cast<int>(std::lround(p.y)) - box.y);
        if (at.inside({{0, 0}, box.size()}) && (pixels.empty() || pixels.back() != at))
            pixels.push_back(at);
    }
    return pixels;
}

/// All but the ends and a few that graze the rim.
bool lieWithin(const std::vector<cv::Point>& pixels, const cv::Mat& mask) {
    const auto outside = std::count_if(pixels.begin(), pixels.end(),
                                       [&](const cv::Point& p) { return mask.at<uchar>(p) == 0; });
    return static_cast<std::size_t>(outside) <= 2 + pixels.size() / 8;
}

} // namespace

cv::Mat sideOf(const Cut& cut, const CutTask& task) {
    constexpr int shift = 4; // sixteenths of a pixel
    std::vector<cv::Point> polygon;
    for (std::size_t i = cut.from; i <= cut.to; ++i) {
        const cv::Point2d p = task.outline[i] - cv::Point2d(task.box.x, task.box.y);
        polygon.emplace_back(static_cast<int>(std::lround(p.x * (1 << shift))),
                             static_cast<int>(std::lround(p.y * (1 << shift))));
    }
    cv::Mat side(task.box.size(), CV_8U, cv::Scalar(0));
    cv::fillPoly(side, std::vector{polygon}, cv::Scalar(255), cv::LINE_8, shift);
    return side & task.mask;
}

std::vector<Cut> likelyCuts(const CutTask& given, const CutSurroundings& around) {
    std::vector<Cut> cuts;
    const int area = cv::countNonZero(given.mask);
    if (given.outline.size() < fewestOutlinePoints || area < 2 * smallestSidePx ||
        given.box.area() > largestBoxPx)
        return cuts;
    const cv::Rect part = partWith(given.mask, outlineRim);
    const cv::Mat mask = given.mask(part);
    const CutTask task{given.outline, part + given.box.tl(), mask};
    const auto whole = solidityAndAspect(task.mask);
    const cv::Vec3d surface = meanOf(around.field.background(task.box), task.mask);
    const Bays bays = baysOf(task.outline);
    const std::size_t n = bays.at.size();
    std::vector<Ends> taken;
    std::size_t tried = 0;
    for (const Ends& ends : endsOf(bays, around.edge)) {
        if (cuts.size() >= mostLikely || tried > mostTried)
            break;
        if (std::any_of(taken.begin(), taken.end(),
                        [&](const Ends& t) { return nearlySame(t, ends, n); }))
            continue;
        const auto line = pixelsBetween(bays.at[ends.i], bays.at[ends.j], task.box);
        ++tried;
        if (!lieWithin(line, task.mask))
            continue;
        taken.push_back(ends);
        Cut cut{bays.index[ends.i], bays.index[ends.j], {}};
        const cv::Mat one = sideOf(cut, task);
        const int own = cv::countNonZero(one), small = std::min(own, area - own);
        const double length = std::max(0.5, cv::norm(bays.at[ends.i] - bays.at[ends.j]));
        if (small < smallestSidePx || length > longestOf * std::sqrt(small))
            continue;
        const auto [shallow, deep] = std::minmax(bays.depth[ends.i], bays.depth[ends.j]);
        cut.features = cutFeaturesOf({line, length, shallow, deep, whole, surface},
                                     {one, task.mask & ~one}, task, around);
        cuts.push_back(cut);
    }
    return cuts;
}

} // namespace swarfbook

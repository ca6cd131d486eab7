// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/within_sight.h"

#include "magnet/mask_tools.h"

#include <algorithm>

namespace swarfbook {
namespace {

/// The share of an outline's points that the mask holds; those outside the view count as held.
double shareIn(const TopView& view, const cv::Mat& mask, const OutlineShape& shape) {
    const std::vector<cv::Point2d> rim = polygonOf(shape, 0.5);
    const auto held = std::count_if(rim.begin(), rim.end(), [&](const cv::Point2d& p) {
        const cv::Point px(cvRound(view.inView(p).x), cvRound(view.inView(p).y));
        return !cv::Rect({}, view.light.size()).contains(px) || mask.at<unsigned char>(px) != 0;
    });
    return static_cast<double>(held) / static_cast<double>(rim.size());
}

/// How much of the silhouette's rim lies where nothing was looked at, mm.
double lengthCutOff(const TopView& view, const Ground& ground, const Silhouette& silhouette) {
    constexpr double strip = 0.4; // mm
    const cv::Mat edge = ground.allowed & ~masks::shrunk(ground.allowed, view.px(strip));
    return cv::countNonZero(edge & silhouette.body) / view.px(strip) / view.px(1.0);
}

} // namespace

bool reachesOut(const TopView& view, const Ground& ground, const Silhouette& silhouette,
                const OutlineShape& seen) {
    constexpr double rimError = 0.5, fewStrands = 3.0; // mm
    constexpr double most = 0.15, alongLine = 0.15;    // shares of the rim
    if (shareIn(view, ~ground.allowed, inset(seen, rimError)) > 0.0)
        return true;
    const double cut = lengthCutOff(view, ground, silhouette);
    const cv::Mat line = masks::grown(ground.line, view.px(rimError));
    return cut > most * seen.perimeter() ||
           (cut > fewStrands && shareIn(view, line, seen) > alongLine);
}

} // namespace swarfbook

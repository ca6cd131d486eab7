// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/cast_shadow.h"

#include "magnet/mask_tools.h"
#include "magnet/outline_shape.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <optional>

namespace swarfbook {
namespace {

// Shares of white paper's light: lit by the sky alone, never as dark as fuzz.
constexpr double darkest = 0.07, lightest = 0.5;
constexpr double even = 0.12;         // spread of log light in a shadow on paper; fuzz has 0.3
constexpr double smallest = 6.0;      // mm2 of a shadow worth taking away
constexpr double mostOfMagnet = 0.4;  // of the silhouette
constexpr double borders = 0.2;       // of its rim that borders on paper
constexpr double longestStrand = 2.5; // mm, beside the shadow
constexpr double outside = 0.9;       // of it beyond the outline of the rest

/// Smooth places of a shadow's light.
cv::Mat smoothShade(const TopView& view, const Silhouette& silhouette) {
    cv::Mat smooth, mean, square;
    cv::GaussianBlur(silhouette.logLight, smooth, {}, std::max(0.5, view.px(0.06)));
    const int side = 2 * std::max(1, cvRound(view.px(0.25))) + 1;
    cv::blur(smooth, mean, {side, side});
    cv::blur(smooth.mul(smooth), square, {side, side});
    const cv::Mat spread = cv::max(square - mean.mul(mean), 0.0);
    const cv::Mat shade = (spread < even * even) & (view.light > darkest) &
                          (view.light < lightest) & silhouette.whole;
    return masks::opened(shade, view.px(0.4));
}

/// The share of a part's rim that lies on the silhouette's own.
double shareOnRim(const TopView& view, const cv::Mat& part, const cv::Mat& whole) {
    const cv::Mat near = ~masks::shrunk(whole, view.px(0.6));
    const std::vector<cv::Point> rim = masks::outerEdge(part);
    const auto on = std::count_if(
        rim.begin(), rim.end(), [&](const cv::Point& p) { return near.at<unsigned char>(p) != 0; });
    return static_cast<double>(on) / std::max(1.0, static_cast<double>(rim.size()));
}

/// The outline that fits a mask's rim; nothing where it has hardly any.
std::optional<OutlineShape> outlineOf(const TopView& view, const cv::Mat& mask) {
    constexpr std::size_t most = 400;
    const std::vector<cv::Point> rim = masks::outerEdge(masks::opened(mask, view.px(0.5)));
    const std::size_t step = std::max<std::size_t>(1, rim.size() / most);
    std::vector<cv::Point2d> points;
    for (std::size_t i = 0; i < rim.size(); i += step)
        points.push_back(view.onCard(rim[i]));
    if (points.size() < 12)
        return std::nullopt;
    return fitOutline(points).shape;
}

double shareOutside(const TopView& view, const cv::Mat& part, const OutlineShape& shape) {
    const OutlineFrame frame(shape);
    std::vector<cv::Point> places;
    cv::findNonZero(part, places);
    const auto beyond = std::count_if(places.begin(), places.end(), [&](const cv::Point& p) {
        return frame.outside(view.onCard(p)) > 0.0;
    });
    return static_cast<double>(beyond) / std::max(1.0, static_cast<double>(places.size()));
}

/// A mask, CV_8U; it is empty if the magnet casts no such shadow.
cv::Mat castShadowIn(const TopView& view, const Silhouette& silhouette) {
    const cv::Mat& whole = silhouette.whole;
    const double all = cv::countNonZero(whole);
    cv::Mat labels, stats, centroids;
    const int n = cv::connectedComponentsWithStats(smoothShade(view, silhouette), labels, stats,
                                                   centroids, 4, CV_32S);
    cv::Mat shadow = cv::Mat::zeros(whole.size(), CV_8U);
    for (int i = 1; i < n; ++i) {
        const double area = stats.at<int>(i, cv::CC_STAT_AREA);
        if (area < smallest * view.px(1.0) * view.px(1.0) || area > mostOfMagnet * all)
            continue;
        const cv::Mat part = masks::grown(labels == i, view.px(0.3)) & whole;
        if (shareOnRim(view, part, whole) < borders)
            continue;
        const auto rest = outlineOf(view, masks::largestPiece(whole & ~part));
        if (rest && shareOutside(view, part, *rest) > outside)
            shadow |= part;
    }
    return shadow;
}

} // namespace

Silhouette withoutCastShadow(const TopView& view, Silhouette silhouette) {
    const cv::Mat shadow = castShadowIn(view, silhouette);
    if (cv::countNonZero(shadow) == 0)
        return silhouette;
    const cv::Mat rest = masks::opened(silhouette.whole & ~shadow, view.px(0.15));
    const cv::Mat core = masks::largestPiece(masks::opened(rest, view.px(0.8)));
    const cv::Mat near = masks::grown(core, view.px(longestStrand)); // not the shadow's far edge
    silhouette.whole = masks::filled(masks::largestPiece(rest & near));
    silhouette.hole &= silhouette.whole;
    silhouette.body = silhouette.whole & ~silhouette.hole;
    silhouette.tips =
        silhouette.whole | masks::piecesWith(silhouette.tips & ~shadow & near, silhouette.whole);
    return silhouette;
}

} // namespace swarfbook

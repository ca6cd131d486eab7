// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/large_pieces.h"

#include "debris/fill_holes.h"

#include <opencv2/features2d.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

namespace swarfbook {
namespace {

constexpr double leastArea = 3.0, mostArea = 90.0; // mm2
constexpr double mostOfWindow = 0.1;               // what is more than a tenth is surface
constexpr double longestLarge = 12.0;              // mm: a lamp's reflection or a shadow is larger
constexpr int stableOver = 10;                     // codes over which a region must stay as it is
constexpr double mostGrowth = 0.25;                // of its area, over so many codes
constexpr double leastSolid =
    0.8; // of its convex hull: no puddle's fringe, no heap of small pieces
constexpr double mostOutside = 0.3; // of it, outside the window

/// Luma and two colour differences, stretched as colour differs less than light.
std::vector<cv::Mat> lightAndColour(const cv::Mat& bgr) {
    const cv::Matx34f planes(0.25F, 0.5F, 0.25F, 0.0F, -0.75F, 0.0F, 0.75F, 128.0F, -0.375F, 0.75F,
                             -0.375F, 128.0F);
    cv::Mat mixed;
    cv::transform(bgr, mixed, planes);
    std::vector<cv::Mat> out;
    cv::split(mixed, out);
    return out;
}

double pixelsWithHoles(const std::vector<cv::Point>& region, const cv::Rect& box) {
    cv::Mat mask(box.size(), CV_8U, cv::Scalar(0));
    for (const cv::Point p : region)
        mask.at<uchar>(p - box.tl()) = 255;
    fillHoles(mask);
    return cv::countNonZero(mask);
}

bool isPiece(const std::vector<cv::Point>& region, const cv::Rect& box, const cv::Mat& inside,
             double pxPerMm) {
    const cv::Rect within(1, 1, inside.cols - 2, inside.rows - 2);
    if (std::max(box.width, box.height) > longestLarge * pxPerMm || (box & within) != box)
        return false;
    std::vector<cv::Point> hull;
    cv::convexHull(region, hull);
    // Pick's theorem: so many pixels lie within the hull of their centres and on it.
    const double hullPixels = cv::contourArea(hull) + cv::arcLength(hull, true) / 2.0 + 1.0;
    if (pixelsWithHoles(region, box) < leastSolid * hullPixels)
        return false;
    const auto out = std::count_if(region.begin(), region.end(),
                                   [&](cv::Point p) { return inside.at<uchar>(p) == 0; });
    return static_cast<double>(out) <= mostOutside * static_cast<double>(region.size());
}

} // namespace

cv::Mat largePieces(const cv::Mat& reduced, const cv::Mat& inside, PixelsPerMillimetre scale) {
    cv::Mat large(reduced.size(), CV_8U, cv::Scalar(0));
    const double perMm2 = scale.value() * scale.value();
    const auto least = static_cast<int>(std::ceil(leastArea * perMm2));
    const auto most =
        static_cast<int>(std::min(mostArea * perMm2, mostOfWindow * cv::countNonZero(inside)));
    if (most <= least)
        return large;
    const std::vector<cv::Mat> planes = lightAndColour(reduced);
    std::vector<cv::Mat> found(planes.size());
    const auto lookAt = [&](const cv::Range& some) {
        const auto finder = cv::MSER::create(stableOver, least, most, mostGrowth);
        for (auto i = static_cast<std::size_t>(some.start); i < static_cast<std::size_t>(some.end);
             ++i) {
            found[i] = cv::Mat::zeros(reduced.size(), CV_8U);
            std::vector<std::vector<cv::Point>> regions;
            std::vector<cv::Rect> boxes;
            finder->detectRegions(planes[i], regions, boxes);
            for (const auto& region : regions)
                if (isPiece(region, cv::boundingRect(region), inside, scale.value()))
                    for (const cv::Point p : region)
                        found[i].at<uchar>(p) = inside.at<uchar>(p);
        }
    };
    cv::parallel_for_(cv::Range(0, static_cast<int>(planes.size())), lookAt);
    for (const cv::Mat& own : found)
        large |= own;
    return large;
}

} // namespace swarfbook

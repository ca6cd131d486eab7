// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/leave_out_shadow.h"

#include "photo/linear_light.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace swarfbook {
namespace {

constexpr double deep = 0.125; // of white paper: three stops, where 8 bits leave 90 of 255 codes
                               // at most and the noise of the lifted shadows is trebled
constexpr double smallestMm2 = 50; // a flake that large is no debris of a transmission; our choice
constexpr double smoothedMm = 6.0; // over pieces; as for the surface in contrast.cpp

cv::Point2d inPhotoOf(const WindowCrop& crop, cv::Point cell) {
    const double k = crop.reducedBy;
    const PointInPhoto p = crop.inPhoto({(cell.x + 0.5) * k - 0.5, (cell.y + 0.5) * k - 0.5});
    return {p.u, p.v};
}

/// 255 where the surface is in deep shadow, on the crop's reduced grid.
cv::Mat deepShadow(const CalibratedPhoto& photo, const WindowCrop& crop) {
    const double perMm = crop.pxPerMm / crop.reducedBy;
    const int wide = static_cast<int>(smoothedMm * perMm) | 1;
    cv::Mat green, surface;
    cv::extractChannel(crop.reduced, green, 1);
    cv::medianBlur(green, surface, std::min(wide, 255));
    cv::Mat mask(surface.size(), CV_8U);
    const auto& linear = linearFromSrgb();
    for (int y = 0; y < mask.rows; ++y)
        for (int x = 0; x < mask.cols; ++x) {
            const cv::Point2d p = inPhotoOf(crop, {x, y});
            const double white =
                photo.light.whiteAt(photo.card.mapping.cardFromPhoto({p.x, p.y}))[1];
            mask.at<uchar>(y, x) = linear[surface.at<uchar>(y, x)] < deep * white ? 255 : 0;
        }
    return mask;
}

} // namespace

std::vector<LeftOut> leaveOutDeepShadow(const CalibratedPhoto& photo, WindowCrop& crop) {
    const cv::Mat mask = deepShadow(photo, crop);
    cv::Mat inside, rim;
    cv::resize(crop.inside, inside, mask.size(), 0, 0, cv::INTER_NEAREST);
    cv::erode(inside, rim, cv::Mat::ones(5, 5, CV_8U), {-1, -1}, 1, cv::BORDER_CONSTANT, 0);
    rim = inside & ~rim;
    cv::Mat labels, stats, centroids;
    const int count = cv::connectedComponentsWithStats(mask & inside, labels, stats, centroids);
    const double cellMm2 = std::pow(crop.reducedBy / crop.pxPerMm, 2);
    std::vector<LeftOut> out;
    for (int i = 1; i < count; ++i) {
        cv::Mat one = labels == i;
        if (stats.at<int>(i, cv::CC_STAT_AREA) * cellMm2 < smallestMm2 ||
            cv::countNonZero(one & rim) == 0)
            continue;
        cv::dilate(one, one, cv::Mat::ones(5, 5, CV_8U)); // its soft border, and the window's rim
        cv::Mat full;
        cv::resize(one, full, crop.inside.size(), 0, 0, cv::INTER_NEAREST);
        crop.inside.setTo(0, full);
        std::vector<std::vector<cv::Point>> contours;
        cv::findContours(one, contours, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_TC89_L1);
        LeftOut part{"deep shadow", {}};
        for (const cv::Point cell : contours.front()) {
            const cv::Point2d p = inPhotoOf(crop, cell);
            part.outline.push_back(photo.trueFromPhoto({p.x, p.y}));
        }
        out.push_back(std::move(part));
    }
    return out;
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/shared_elongation.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace swarfbook {
namespace {

/// Mean length of elongations in random directions is this over the root of their number: half of a
/// typical elongation, by the mean of a two-dimensional Gaussian. Ours, from photos with known
/// truth.
constexpr double byChance = 0.45;

} // namespace

cv::Point2d elongationOf(const std::vector<cv::Point2d>& outline) {
    const double count = std::max<double>(1.0, static_cast<double>(outline.size()));
    const cv::Point2d middle =
        std::accumulate(outline.begin(), outline.end(), cv::Point2d()) / count;
    double xx = 0.0, xy = 0.0, yy = 0.0;
    for (const cv::Point2d& p : outline) {
        const cv::Point2d away = p - middle;
        xx += away.x * away.x;
        xy += away.x * away.y;
        yy += away.y * away.y;
    }
    return cv::Point2d(xx - yy, 2.0 * xy) / std::max(xx + yy, 1e-9);
}

cv::Point2d sharedElongation(const std::vector<cv::Point2d>& elongations) {
    if (elongations.empty())
        return {};
    const auto count = static_cast<double>(elongations.size());
    const cv::Point2d mean =
        std::accumulate(elongations.begin(), elongations.end(), cv::Point2d()) / count;
    const double length = std::hypot(mean.x, mean.y);
    const double left = length - byChance / std::sqrt(count);
    return left > 0.0 ? mean * (left / length) : cv::Point2d();
}

} // namespace swarfbook

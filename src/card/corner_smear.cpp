// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/corner_smear.h"

#include "card/edge_points.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace swarfbook {
namespace {

cv::Point2d inPhoto(const PlaneMapping& mapping, PointOnCard p) {
    const PointInPhoto q = mapping.photoFromCard(p);
    return {q.u, q.v};
}

/// Unit step in the photo of a small step on the card from `at`.
cv::Point2d unitStep(const PlaneMapping& mapping, PointOnCard at, PointOnCard step) {
    constexpr double small = 0.05;
    const cv::Point2d d =
        inPhoto(mapping, {at.x + small * step.x, at.y + small * step.y}) - inPhoto(mapping, at);
    return d / std::max(std::hypot(d.x, d.y), 1e-12);
}

/// Light on a square field of pixels about `corner`, along two directions; empty outside the photo.
cv::Mat_<double> fieldAt(const cv::Mat& bgr, cv::Point2d corner,
                         const std::pair<cv::Point2d, cv::Point2d>& ways, int reach) {
    cv::Mat_<double> field(2 * reach + 1, 2 * reach + 1);
    for (int j = -reach; j <= reach; ++j)
        for (int i = -reach; i <= reach; ++i) {
            const cv::Point2d p = corner + i * ways.first + j * ways.second;
            const auto light = lightAt(bgr, {p.x, p.y});
            if (!light)
                return {};
            field(j + reach, i + reach) = *light;
        }
    return field;
}

/// Covariance of the mixed difference about its own mean, px^2; nullopt without contrast.
std::optional<double> covarianceOf(const cv::Mat_<double>& field) {
    double sum = 0.0, x = 0.0, y = 0.0, xy = 0.0;
    double least = field(0, 0), most = field(0, 0);
    for (int j = 0; j + 1 < field.rows; ++j)
        for (int i = 0; i + 1 < field.cols; ++i) {
            const double d = field(j + 1, i + 1) - field(j, i + 1) - field(j + 1, i) + field(j, i);
            sum += d;
            x += i * d;
            y += j * d;
            xy += i * j * d;
            least = std::min(least, field(j, i));
            most = std::max(most, field(j, i));
        }
    if (std::abs(sum) < 0.5 * (most - least) || most - least < 0.05)
        return std::nullopt;
    return xy / sum - (x / sum) * (y / sum);
}

} // namespace

std::optional<double> smearCovariance(const cv::Mat& bgr, const PlaneMapping& mapping,
                                      const SquareOnCard& square, Pixels edgeWidth) {
    const cv::Point2d a = inPhoto(mapping, square.centre);
    const cv::Point2d b =
        inPhoto(mapping, {square.centre.x + square.toRight.x, square.centre.y + square.toRight.y});
    const double halfSide = std::hypot(b.x - a.x, b.y - a.y);
    const int reach =
        static_cast<int>(std::min(std::max(1.2 * edgeWidth.value() + 3.0, 6.0), 0.7 * halfSide));
    std::vector<double> found;
    for (const int right : {-1, 1})
        for (const int down : {-1, 1}) {
            const PointOnCard corner{
                square.centre.x + right * square.toRight.x + down * square.toBottom.x,
                square.centre.y + right * square.toRight.y + down * square.toBottom.y};
            const cv::Mat_<double> field = fieldAt(bgr, inPhoto(mapping, corner),
                                                   {unitStep(mapping, corner, square.toRight),
                                                    unitStep(mapping, corner, square.toBottom)},
                                                   reach);
            if (field.empty())
                continue;
            if (const auto covariance = covarianceOf(field))
                found.push_back(*covariance);
        }
    if (found.size() < 2)
        return std::nullopt;
    std::sort(found.begin(), found.end());
    const std::size_t n = found.size();
    return n % 2 == 1 ? found[n / 2] : (found[n / 2 - 1] + found[n / 2]) / 2.0;
}

} // namespace swarfbook

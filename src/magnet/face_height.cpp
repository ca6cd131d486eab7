// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/face_height.h"

#include "magnet/mask_tools.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

namespace swarfbook {
namespace {

constexpr int sectors = 36;
constexpr double smoothEdge = 0.06; // mm, spread about a straight line over one sector
constexpr double edgeError = 0.12;  // mm, standard, of a sector's edge

/// One smooth stretch of the hole's edge: its middle, on the card's plane.
std::vector<cv::Point2d> smoothStretches(const TopView& view, const cv::Mat& hole,
                                         cv::Point2d middle) {
    std::array<std::vector<cv::Point2d>, sectors> bySector;
    for (const cv::Point& px : masks::outerEdge(hole)) {
        const cv::Point2d p = view.onCard(px), d = p - middle;
        const double turn = std::atan2(d.y, d.x) / (2.0 * std::numbers::pi) + 0.5;
        bySector[std::min<std::size_t>(sectors - 1, static_cast<std::size_t>(turn * sectors))]
            .push_back(p);
    }
    std::vector<cv::Point2d> stretches;
    for (const auto& points : bySector) {
        if (points.size() < 5)
            continue;
        const double n = static_cast<double>(points.size());
        cv::Point2d mean;
        for (const cv::Point2d& p : points)
            mean += p / n;
        double xx = 0.0, xy = 0.0, yy = 0.0;
        for (const cv::Point2d& p : points) {
            const cv::Point2d d = p - mean;
            xx += d.x * d.x / n;
            xy += d.x * d.y / n;
            yy += d.y * d.y / n;
        }
        const double across = 0.5 * (xx + yy - std::hypot(xx - yy, 2.0 * xy));
        if (across < smoothEdge * smoothEdge)
            stretches.push_back(mean);
    }
    return stretches;
}

} // namespace

FaceHeight faceHeightOf(const TopView& view, const cv::Mat& hole, const CameraPlace& camera,
                        const OutlineShape& outer, const InnerRim& inner) {
    const std::vector<cv::Point2d> stretches = smoothStretches(view, hole, outer.centre);
    const FaceHeight usual = usualFaceHeight;
    double weights = 0.0, mean = 0.0, square = 0.0;
    for (double height = 1.5; height <= 12.0; height += 0.1) {
        const double stretch = camera.stretch(height);
        const cv::Point2d foot = camera.settled(outer.centre, height);
        for (double radius = inner.radius - 1.5; radius <= inner.radius + 1.5; radius += 0.05) {
            double misfit = std::pow((radius - inner.radius) / inner.uncertainty, 2) +
                            std::pow((height - usual.value) / usual.uncertainty, 2);
            for (const cv::Point2d& p : stretches) {
                const double fromRim = cv::norm(p - outer.centre) - radius;
                const double fromFoot = cv::norm(p - foot) - radius / stretch;
                const double error = std::max(fromRim, fromFoot) / edgeError;
                misfit += std::min(error * error, 9.0); // a stretch of fuzz may be smooth too
            }
            const double weight = std::exp(-0.5 * misfit);
            weights += weight;
            mean += weight * height;
            square += weight * height * height;
        }
    }
    if (weights <= 0.0)
        return usual;
    mean /= weights;
    return {mean, std::sqrt(std::max(0.01, square / weights - mean * mean))};
}

} // namespace swarfbook

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
constexpr double smoothEdge = 0.045; // mm, spread about a straight line over one sector
constexpr double smoothWall = 0.2;   // spread of log light along the wall; strands make more
constexpr double edgeError = 0.08;   // mm, standard, of a sector's edge on a bare wall
constexpr double furredShare =
    0.5; // share of smooth stretches that are nevertheless fuzz or its shadow
constexpr double furredSpread = 2.0; // mm over which those lie anywhere

/// Whether the strip just beyond the hole's edge is as even as a bare wall.
bool bareBeyond(const TopView& view, const cv::Mat& logLight, const std::vector<cv::Point2d>& edge,
                cv::Point2d middle) {
    double n = 0.0, sum = 0.0, square = 0.0;
    for (const cv::Point2d& p : edge)
        for (const double beyond : {0.25, 0.35, 0.45, 0.55}) {
            const cv::Point2d d = p - middle;
            const cv::Point2d at = view.inView(p + d * (beyond / std::max(1e-6, cv::norm(d))));
            const cv::Point px(cvRound(at.x), cvRound(at.y));
            if (!cv::Rect({}, logLight.size()).contains(px))
                return false;
            const double value = logLight.at<float>(px);
            n += 1.0;
            sum += value;
            square += value * value;
        }
    return square / n - sum * sum / (n * n) < smoothWall * smoothWall;
}

/// The smooth stretches of the hole's edge, each as its middle, on the card's plane.
std::vector<cv::Point2d> smoothStretches(const TopView& view, const Silhouette& silhouette,
                                         cv::Point2d middle) {
    std::array<std::vector<cv::Point2d>, sectors> bySector;
    for (const cv::Point& px : masks::outerEdge(silhouette.hole)) {
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
        if (across < smoothEdge * smoothEdge &&
            bareBeyond(view, silhouette.logLight, points, middle))
            stretches.push_back(mean);
    }
    return stretches;
}

/// Probability density, per mm, of a smooth stretch this far outside the place of a bare hole's
/// edge.
double likelihood(double error) {
    const double bare = std::exp(-0.5 * error * error / (edgeError * edgeError)) /
                        (edgeError * std::sqrt(2.0 * std::numbers::pi));
    return (1.0 - furredShare) * bare + furredShare / furredSpread;
}

} // namespace

FaceHeight faceHeightOf(const TopView& view, const Silhouette& silhouette,
                        const CameraPlace& camera, const RingSeen& ring) {
    const auto& [outer, inner] = ring;
    const std::vector<cv::Point2d> stretches = smoothStretches(view, silhouette, outer.centre);
    const FaceHeight usual = usualFaceHeight;
    double weights = 0.0, mean = 0.0, square = 0.0;
    for (double height = 1.5; height <= 12.0; height += 0.1) {
        const double stretch = camera.stretch(height);
        const cv::Point2d foot = camera.settled(outer.centre, height);
        for (double radius = inner.radius - 1.0; radius <= inner.radius + 1.0; radius += 0.05) {
            double weight =
                std::exp(-0.5 * std::pow((radius - inner.radius) / inner.uncertainty, 2) -
                         0.5 * std::pow((height - usual.value) / usual.uncertainty, 2));
            for (const cv::Point2d& p : stretches) {
                const double fromRim = cv::norm(p - outer.centre) - radius;
                const double fromFoot = cv::norm(p - foot) - radius / stretch;
                weight *= likelihood(std::max(fromRim, fromFoot));
            }
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

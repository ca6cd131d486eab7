// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "gauge/lying_body.h"

#include "base/median.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace swarfbook {
namespace {

/// Radius of a circle that touches the plane and is seen under `half` to either side of a line of
/// sight `slant` off the vertical: R = d sin(half) and H - R = d cos(slant).
double touchingRadius(double slant, double half, double cameraHeight) {
    return cameraHeight * std::sin(half) / (std::cos(slant) + std::sin(half));
}

/// Angle between a cone's axis and its lines of sight for each of them.
std::vector<double> halfAngles(const std::vector<cv::Vec3d>& sights, const cv::Vec3d& axis) {
    std::vector<double> angles;
    for (const cv::Vec3d& sight : sights)
        angles.push_back(std::acos(std::clamp(sight.dot(axis), -1.0, 1.0)));
    return angles;
}

/// w with sight . w = 1 for all lines of sight of one cone: w = axis / cos(half angle).
cv::Vec3d coneThrough(const std::vector<cv::Vec3d>& sights) {
    cv::Matx33d a = cv::Matx33d::zeros();
    cv::Vec3d g(0, 0, 0);
    for (const cv::Vec3d& sight : sights) {
        a += sight * sight.t();
        g += sight;
    }
    return a.solve(g, cv::DECOMP_LU);
}

} // namespace

double roundBarDiameter(const SeenEdges& seen, double cameraHeight) {
    const double a = std::atan2(seen.from, cameraHeight);
    const double b = std::atan2(seen.to, cameraHeight);
    return 2.0 * touchingRadius((a + b) / 2.0, (b - a) / 2.0, cameraHeight);
}

SeenEdges edgesOfRoundBar(double diameter, double aside, double cameraHeight) {
    const double above = cameraHeight - diameter / 2.0;
    const double slant = std::atan2(aside, above);
    const double half = std::asin(diameter / 2.0 / std::hypot(aside, above));
    return {cameraHeight * std::tan(slant - half), cameraHeight * std::tan(slant + half)};
}

double flatBarWidth(const SeenEdges& seen, double thickness, double cameraHeight) {
    const double stretch = cameraHeight / (cameraHeight - thickness);
    // The outer end of a side that the camera looks at lies on the plane, else on the upper face.
    const double from = seen.from > 0.0 ? seen.from : seen.from / stretch;
    const double to = seen.to < 0.0 ? seen.to : seen.to / stretch;
    return to - from;
}

SeenEdges edgesOfFlatBar(const FlatBar& bar, double aside, double cameraHeight) {
    const double stretch = cameraHeight / (cameraHeight - bar.thickness);
    const double from = aside - bar.width / 2.0;
    const double to = aside + bar.width / 2.0;
    return {std::min(from, from * stretch), std::max(to, to * stretch)};
}

SeenBall ballFromOutline(const std::vector<cv::Point2d>& outline, const CameraPlace& camera) {
    if (outline.size() < 8)
        throw std::logic_error("a ball's outline needs at least 8 points");
    std::vector<cv::Vec3d> sights;
    for (const cv::Point2d& p : outline)
        sights.push_back(
            cv::normalize(cv::Vec3d(p.x - camera.foot.x, p.y - camera.foot.y, camera.height)));
    std::vector<cv::Vec3d> used = sights;
    cv::Vec3d w = coneThrough(used);
    for (int round = 0; round < 6; ++round) {
        const auto angles = halfAngles(sights, cv::normalize(w));
        const double middle = upperMedianOf(angles);
        std::vector<double> off;
        for (const double angle : angles)
            off.push_back(std::abs(angle - middle));
        const double limit = std::max(3.0 * 1.4826 * upperMedianOf(off), 1e-7);
        used.clear();
        for (std::size_t i = 0; i < sights.size(); ++i)
            if (off[i] <= limit)
                used.push_back(sights[i]);
        w = coneThrough(used);
    }
    const cv::Vec3d axis = cv::normalize(w);
    const double half = std::acos(std::min(1.0, 1.0 / cv::norm(w)));
    const double slant = std::acos(std::min(1.0, axis[2]));
    SeenBall ball;
    ball.diameter = 2.0 * touchingRadius(slant, half, camera.height);
    const double along = (camera.height - ball.diameter / 2.0) / axis[2];
    ball.touches = camera.foot + along * cv::Point2d(axis[0], axis[1]);
    ball.used = static_cast<int>(used.size());
    double squares = 0.0;
    for (const double angle : halfAngles(used, axis))
        squares += (angle - half) * (angle - half);
    ball.scatter = 2.0 * along * std::sqrt(squares / static_cast<double>(used.size()));
    return ball;
}

} // namespace swarfbook

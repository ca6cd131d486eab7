// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "rendered/rendered_card.h"

#include <algorithm>
#include <cmath>

namespace swarfbook::test {
namespace {} // namespace

cv::Matx33d Camera::rotation() const {
    const double t = tilt * radians;
    const double a = azimuth * radians;
    const cv::Vec3d forward(std::sin(t) * std::cos(a), std::sin(t) * std::sin(a), std::cos(t));
    const cv::Vec3d level = cv::normalize(cv::Vec3d(0, 1, 0).cross(forward));
    const cv::Vec3d below = forward.cross(level);
    const double c = std::cos(roll * radians);
    const double s = std::sin(roll * radians);
    const cv::Vec3d right = c * level + s * below;
    const cv::Vec3d down = c * below - s * level;
    return {right[0], right[1],   right[2],   down[0],   down[1],
            down[2],  forward[0], forward[1], forward[2]};
}

cv::Vec3d Camera::place() const {
    const cv::Matx33d r = rotation();
    return cv::Vec3d(aim.x, aim.y, 0.0) - distance * cv::Vec3d(r(2, 0), r(2, 1), r(2, 2));
}

PointInPhoto Camera::photoFromSpace(const cv::Vec3d& p) const {
    const cv::Vec3d q = rotation() * (p - place());
    const double x = q[0] / q[2];
    const double y = q[1] / q[2];
    const double r2 = x * x + y * y;
    const double s = 1.0 + k1 * r2 + k2 * r2 * r2;
    return {(size.width - 1) / 2.0 + focal * x * s, (size.height - 1) / 2.0 + focal * y * s};
}

PlaneMapping Camera::mapping() const {
    const cv::Matx33d r = rotation();
    const cv::Vec3d t = -(r * place());
    PlaneMapping m;
    m.h = {r(0, 0), r(0, 1), t[0], r(1, 0), r(1, 1), t[1], r(2, 0), r(2, 1), t[2]};
    m.focal = focal;
    m.centre = {(size.width - 1) / 2.0, (size.height - 1) / 2.0};
    m.k1 = k1;
    m.k2 = k2;
    return m;
}

double worstScaleError(const PlaneMapping& found, const PlaneMapping& truth,
                       const CardRect& window) {
    constexpr int n = 5;
    const auto length = [&](const PlaneMapping& m, cv::Point a, cv::Point b) {
        const auto at = [&](cv::Point p) {
            return m.photoFromCard({window.x + window.width * p.x / (n - 1),
                                    window.y + window.height * p.y / (n - 1)});
        };
        const PointInPhoto p = at(a);
        const PointInPhoto q = at(b);
        return std::hypot(q.u - p.u, q.v - p.v);
    };
    double worst = 0.0;
    for (int j = 0; j < n; ++j)
        for (int i = 0; i < n; ++i)
            for (const cv::Point step : {cv::Point(1, 0), cv::Point(0, 1), cv::Point(1, 1)}) {
                const cv::Point a(i, j);
                const cv::Point b = a + step;
                if (b.x >= n || b.y >= n)
                    continue;
                worst = std::max(worst, std::abs(length(found, a, b) / length(truth, a, b) - 1.0));
            }
    return 100.0 * worst;
}

} // namespace swarfbook::test

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/plane_mapping.h"

#include <cmath>

namespace swarfbook {

PointInPhoto PlaneMapping::photoFromCard(PointOnCard p) const {
    const cv::Vec3d q = h * cv::Vec3d(p.x, p.y, 1.0);
    const double x = q[0] / q[2];
    const double y = q[1] / q[2];
    const double r2 = x * x + y * y;
    const double s = 1.0 + r2 * (k1 + k2 * r2);
    return {centre.x + focal * x * s, centre.y + focal * y * s};
}

PointOnCard PlaneMapping::cardFromPhoto(PointInPhoto p) const {
    const double xd = (p.u - centre.x) / focal;
    const double yd = (p.v - centre.y) / focal;
    const double rd = std::hypot(xd, yd);
    double r = rd; // Newton on r (1 + k1 r^2 + k2 r^4) = rd
    for (int i = 0; i < 10; ++i) {
        const double r2 = r * r;
        const double slope = 1.0 + r2 * (3.0 * k1 + 5.0 * k2 * r2);
        if (std::abs(slope) < 0.1)
            break;
        const double step = (r * (1.0 + r2 * (k1 + k2 * r2)) - rd) / slope;
        r -= step;
        if (std::abs(step) < 1e-13)
            break;
    }
    const double s = rd > 1e-12 ? r / rd : 1.0;
    const cv::Vec3d q = h.inv() * cv::Vec3d(xd * s, yd * s, 1.0);
    return {q[0] / q[2], q[1] / q[2]};
}

PixelsPerMillimetre PlaneMapping::scaleAt(PointOnCard p) const {
    constexpr double step = 0.05; // mm: far below the scale on which perspective changes
    const PointInPhoto left = photoFromCard({p.x - step, p.y});
    const PointInPhoto right = photoFromCard({p.x + step, p.y});
    const PointInPhoto up = photoFromCard({p.x, p.y - step});
    const PointInPhoto down = photoFromCard({p.x, p.y + step});
    const double det = (right.u - left.u) * (down.v - up.v) - (right.v - left.v) * (down.u - up.u);
    return PixelsPerMillimetre(std::sqrt(std::abs(det)) / (2.0 * step));
}

CameraStand cameraOver(const PlaneMapping& mapping) {
    cv::Vec3d right(mapping.h(0, 0), mapping.h(1, 0), mapping.h(2, 0));
    cv::Vec3d down(mapping.h(0, 1), mapping.h(1, 1), mapping.h(2, 1));
    cv::Vec3d origin(mapping.h(0, 2), mapping.h(1, 2), mapping.h(2, 2));
    const double scale = 2.0 / (cv::norm(right) + cv::norm(down));
    right *= scale;
    down *= scale;
    origin *= scale;
    const cv::Vec3d away = right.cross(down);
    return {{-right.dot(origin), -down.dot(origin)}, Millimetres(std::abs(away.dot(origin)))};
}

PlaneMapping mappingBelow(const PlaneMapping& mapping, Millimetres depth) {
    const CameraStand camera = cameraOver(mapping);
    const double shrink = camera.height.value() / (camera.height.value() + depth.value());
    PlaneMapping below = mapping;
    below.h = mapping.h * cv::Matx33d(shrink, 0, camera.foot.x * (1 - shrink), 0, shrink,
                                      camera.foot.y * (1 - shrink), 0, 0, 1);
    return below;
}

} // namespace swarfbook

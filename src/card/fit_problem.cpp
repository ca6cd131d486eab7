// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/fit_problem.h"

#include <cmath>

namespace swarfbook {

PlaneMapping FitProblem::mappingOf(const Vector& p) const {
    PlaneMapping m = start;
    m.h = cv::Matx33d(p[0], p[1], p[2], p[3], p[4], p[5], p[6], p[7], 1.0) * normalFromCard;
    m.k1 = p[8];
    m.k2 = p[9];
    return m;
}

FitProblem::Vector FitProblem::parametersOf(const PlaneMapping& m) const {
    cv::Matx33d h = m.h * normalFromCard.inv();
    h *= 1.0 / h(2, 2);
    return {h(0, 0), h(0, 1), h(0, 2), h(1, 0), h(1, 1), h(1, 2),
            h(2, 0), h(2, 1), m.k1,    m.k2,    0.0};
}

std::vector<cv::Point2d> FitProblem::undistorted(const Vector& p) const {
    std::vector<cv::Point2d> straight;
    straight.reserve(points.size());
    for (const EdgePoint& q : points) {
        const cv::Point2d seen((q.at.u - start.centre.x) / start.focal,
                               (q.at.v - start.centre.y) / start.focal);
        double s = 1.0; // undistorted = distorted * s, by fixed-point iteration
        for (int i = 0; i < 8; ++i) {
            const double r2 = seen.dot(seen) * s * s;
            s = 1.0 / (1.0 + r2 * (p[8] + p[9] * r2));
        }
        straight.push_back(s * seen);
    }
    return straight;
}

std::vector<double> FitProblem::distances(const Vector& p,
                                          const std::vector<cv::Point2d>& straight) const {
    const cv::Matx33d lineFromLine = mappingOf(p).h.inv().t();
    std::vector<cv::Vec3d> lines;
    for (const CardEdge& e : edges) {
        const double c = e.outward.x * e.a.x + e.outward.y * e.a.y + p[10];
        cv::Vec3d l = lineFromLine * cv::Vec3d(e.outward.x, e.outward.y, -c);
        lines.push_back(l * (start.focal / std::hypot(l[0], l[1])));
    }
    // Lines mapped by the inverse transpose keep their side up to the sign of the homography's
    // depth, which is positive for every card in front of the camera.
    std::vector<double> d;
    d.reserve(points.size());
    for (std::size_t i = 0; i < points.size(); ++i) {
        const cv::Vec3d& l = lines[static_cast<std::size_t>(points[i].edge)];
        d.push_back(l[0] * straight[i].x + l[1] * straight[i].y + l[2]);
    }
    return d;
}

std::vector<FitProblem::Vector> FitProblem::jacobian(const Vector& p,
                                                     const std::vector<double>& here) const {
    std::vector<Vector> rows(points.size());
    const auto straight = undistorted(p);
    constexpr double step = 1e-6;
    for (int k = 0; k < parameters; ++k) {
        Vector moved = p;
        moved[k] += step;
        const bool ofLens = k == 8 || k == 9;
        const auto there = ofLens ? distances(moved) : distances(moved, straight);
        for (std::size_t i = 0; i < rows.size(); ++i)
            rows[i][k] = (there[i] - here[i]) / step;
    }
    return rows;
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "gauge/lying_body.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace swarfbook;

// Outside truth: a body's surface, point by point, sent through a pinhole onto the plane by similar
// triangles; the outermost places are its edges. The closed forms are not used.

namespace {

constexpr double height = 95.0;

/// Where a point `above` the plane appears on it, from the camera's foot.
double appears(double place, double above) {
    return place * height / (height - above);
}

SeenEdges edgesBySearch(const std::vector<cv::Point2d>& section) { // x across, y above the plane
    SeenEdges seen{1e9, -1e9};
    for (const cv::Point2d& p : section) {
        seen.from = std::min(seen.from, appears(p.x, p.y));
        seen.to = std::max(seen.to, appears(p.x, p.y));
    }
    return seen;
}

std::vector<cv::Point2d> circle(double diameter, double aside) {
    std::vector<cv::Point2d> points;
    for (int i = 0; i < 200000; ++i) {
        const double t = 2.0 * std::numbers::pi * i / 200000;
        points.emplace_back(aside + diameter / 2.0 * std::cos(t),
                            diameter / 2.0 * (1.0 + std::sin(t)));
    }
    return points;
}

} // namespace

TEST_CASE("a round bar's diameter follows from its tangents, wherever the camera is") {
    for (const double diameter : {0.3, 2.0, 12.0})
        for (const double aside : {-60.0, 0.0, 25.0, 90.0}) {
            const SeenEdges truth = edgesBySearch(circle(diameter, aside));
            INFO(diameter << " mm, " << aside << " mm aside");
            CHECK(roundBarDiameter(truth, height) == Approx(diameter).epsilon(1e-6));
            const SeenEdges seen = edgesOfRoundBar(diameter, aside, height);
            CHECK(seen.from == Approx(truth.from).margin(1e-6));
            CHECK(seen.to == Approx(truth.to).margin(1e-6));
        }
}

TEST_CASE("a bar seen from straight above looks thicker by its radius over the camera's height") {
    // First order of the tangents' closed form: seen / true = 1 + R / H.
    const SeenEdges seen = edgesOfRoundBar(2.0, 0.0, 100.0);
    CHECK(seen.to - seen.from == Approx(2.0 * 1.01).epsilon(2e-4));
}

TEST_CASE("a flat bar's width follows from its corners, with or without its side in sight") {
    for (const double thickness : {0.0, 0.5, 1.0})
        for (const double aside : {-50.0, -3.0, 0.0, 4.0, 70.0}) {
            const double width = 12.7;
            const double a = aside - width / 2.0, b = aside + width / 2.0;
            const SeenEdges truth =
                edgesBySearch({{a, 0.0}, {b, 0.0}, {a, thickness}, {b, thickness}});
            INFO(thickness << " mm thick, " << aside << " mm aside");
            CHECK(flatBarWidth(truth, thickness, height) == Approx(width).epsilon(1e-12));
            const SeenEdges seen = edgesOfFlatBar({width, thickness}, aside, height);
            CHECK(seen.from == Approx(truth.from));
            CHECK(seen.to == Approx(truth.to));
        }
}

TEST_CASE("a ball's size and place come from its outline on the plane, stray points left out") {
    const CameraPlace camera{{40.0, 35.0}, height};
    for (const cv::Point2d touches : {cv::Point2d(40.0, 35.0), cv::Point2d(75.0, 20.0)})
        for (const double diameter : {1.0, 6.35}) {
            // The border between the places on the plane whose line of sight meets the ball and
            // those whose does not, found by halving along rays.
            const cv::Vec3d eye(camera.foot.x, camera.foot.y, height);
            const cv::Vec3d middle(touches.x, touches.y, diameter / 2.0);
            const auto hidden = [&](const cv::Point2d& p) {
                const cv::Vec3d sight = cv::normalize(cv::Vec3d(p.x, p.y, 0.0) - eye);
                const cv::Vec3d to = middle - eye;
                return cv::norm(to - to.dot(sight) * sight) < diameter / 2.0;
            };
            const cv::Point2d inside =
                camera.foot + (touches - camera.foot) * (height / (height - diameter / 2.0));
            std::vector<cv::Point2d> outline;
            for (int i = 0; i < 90; ++i) {
                const double t = 2.0 * std::numbers::pi * i / 90;
                const cv::Point2d way(std::cos(t), std::sin(t));
                double near = 0.0, far = 3.0 * diameter;
                for (int k = 0; k < 50; ++k)
                    (hidden(inside + (near + far) / 2.0 * way) ? near : far) = (near + far) / 2.0;
                // Every tenth point is off by a tenth of the diameter, as a glint would throw it.
                outline.push_back(inside + (near - (i % 10 == 3 ? 0.1 * diameter : 0.0)) * way);
            }
            const SeenBall ball = ballFromOutline(outline, camera);
            INFO(diameter << " mm at " << touches);
            CHECK(ball.diameter == Approx(diameter).epsilon(1e-5));
            CHECK(ball.touches.x == Approx(touches.x).margin(1e-4));
            CHECK(ball.touches.y == Approx(touches.y).margin(1e-4));
            CHECK(ball.used == 81);
        }
    CHECK_THROWS_AS(ballFromOutline({{1, 1}, {2, 2}}, camera), std::logic_error);
}

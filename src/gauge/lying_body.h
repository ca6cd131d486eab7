// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/top_view.h"

#include <opencv2/core.hpp>

#include <vector>

namespace swarfbook {

/// A body of some thickness lies on the card's plane, and a camera looks at it from a known height.
/// Its size follows from where its outline appears on the plane. All lengths are true millimetres.
///
///            camera  o                 an edge seen at x lies on the line of sight from the
///                   /|\                camera's height H over x = 0
///                  / | \               .
///              H  /  |  (o) body       .
///     ___________/___|__/_\_____ plane
///                    0  x1 x2
///
/// Sources: plane trigonometry of tangents to a circle; similar triangles.
/// Checked: tests/gauge/lying_body_test.cpp (tangents found by searching the body's own outline).

/// The two edges of a long straight bar, across it, from the camera's foot.
struct SeenEdges {
    double from = 0.0, to = 0.0; ///< mm, from < to
};

/// Diameter of a round bar whose tangent lines of sight end at these edges.
double roundBarDiameter(const SeenEdges& seen, double cameraHeight);
/// Where the edges of a round bar appear whose axis runs `aside` of the camera's foot.
SeenEdges edgesOfRoundBar(double diameter, double aside, double cameraHeight);

struct FlatBar {
    double width = 0.0, thickness = 0.0; ///< mm
};
/// Width of a flat bar of this thickness whose outermost edges appear here. Its near side face is
/// included where the camera sees it.
double flatBarWidth(const SeenEdges& seen, double thickness, double cameraHeight);
/// Where the edges of a flat bar appear whose middle lies `aside` of the camera's foot.
SeenEdges edgesOfFlatBar(const FlatBar& bar, double aside, double cameraHeight);

/// A ball found from its outline.
struct SeenBall {
    double diameter = 0.0;
    cv::Point2d touches;  ///< where it touches the plane
    double scatter = 0.0; ///< rms distance of the outline used from a ball's, as mm of diameter
    int used = 0;         ///< points of the outline that agree with a ball
};

/// The ball whose cone of sight touches the outline, points that disagree left out.
/// @param outline  at least 8 points on the plane.
/// Throws std::logic_error for fewer.
SeenBall ballFromOutline(const std::vector<cv::Point2d>& outline, const CameraPlace& camera);

} // namespace swarfbook

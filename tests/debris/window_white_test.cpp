// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/drawn_window.h"
#include "debris/window_white.h"
#include "photo/linear_light.h"
#include "rendered/rendered_card.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

/// Light on a place of the photo as a share of the greatest: brighter towards one corner.
double lightAt(double u, double v, cv::Size size) {
    const double x = u / size.width - 0.8, y = v / size.height - 0.3;
    return std::exp(-0.5 * (x * x + y * y) - 0.2 * x);
}

/// The code of linear light, by the table of all codes.
uchar codeOf(double linear) {
    const auto& table = linearFromSrgb();
    return static_cast<uchar>(
        std::lower_bound(table.begin(), table.end() - 1, static_cast<float>(linear)) -
        table.begin());
}

/// The same photo under that light.
void light(cv::Mat& bgr) {
    for (int v = 0; v < bgr.rows; ++v)
        for (int u = 0; u < bgr.cols; ++u)
            for (int c = 0; c < 3; ++c) {
                uchar& code = bgr.at<cv::Vec3b>(v, u)[c];
                code = codeOf(double(linearFromSrgb()[code]) * lightAt(u, v, bgr.size()));
            }
}

} // namespace

TEST_CASE("The white near the window is the light it was drawn in", "[debris]") {
    Drawing drawing;
    drawing.layout = layoutNamed("close");
    const CardRect& w = drawing.layout.window;
    // A smudge and debris on the paper beside the window have no effect.
    drawing.pieces.push_back({{w.x + 10, w.y - 2}, 6.0, 3.0, 0.0, {0.30, 0.30, 0.30}});
    drawing.pieces.push_back({{w.x - 2, w.y + 12}, 3.0, 0.0, 0.0, {0.04, 0.04, 0.04}});
    const Camera camera;
    Photo drawn = photograph(drawing, camera, {});
    light(drawn.bgr);
    const auto photo = calibratePhoto(drawn, allLayouts(), std::nullopt);
    REQUIRE(photo);
    const WindowWhite white(*photo);
    for (const double x : {0.05, 0.5, 0.95})
        for (const double y : {0.05, 0.5, 0.95}) {
            const PointInPhoto at =
                camera.mapping().photoFromCard({w.x + w.width * x, w.y + w.height * y});
            const double expected = drawing.paper * lightAt(at.u, at.v, drawn.bgr.size());
            for (int c = 0; c < 3; ++c)
                CHECK(white.at(at)[c] == Approx(expected).epsilon(0.01)); // a code is 1 %
        }
}

TEST_CASE("If the photo shows no paper round the window, the whole card's light is used",
          "[debris]") {
    const cv::Mat steel = plainSurface({400, 300}, {90, 90, 90}, 1.0);
    const WindowWhite white(flatPhoto(steel, 20.0, 200)); // all window
    for (const PointInPhoto p : {PointInPhoto{5, 5}, PointInPhoto{200, 150}, PointInPhoto{390, 20}})
        CHECK(white.at(p)[1] == Approx(double(linearFromSrgb()[200])).epsilon(1e-6));
}

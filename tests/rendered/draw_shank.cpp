// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "rendered/rendered_card.h"

#include <opencv2/imgcodecs.hpp>

#include <cstdio>

/// Draws a photo of a shank of 3.00 mm on the close card: demo-images/shank-3mm.jpg is its output.
int main(int argc, char** argv) {
    using namespace swarfbook::test;
    if (argc != 2) {
        std::fputs("usage: draw_shank FILE.jpg\n", stderr);
        return 2;
    }
    Drawing drawing;
    drawing.layout = layoutNamed("close");
    drawing.bodies.push_back({{52, 39}, 3.0, 40.0, 24.0});
    Camera camera;
    camera.size = {2800, 2100};
    camera.focal = 2100.0;
    camera.distance = 108.0;
    camera.tilt = 11.0;
    camera.azimuth = 65.0;
    camera.roll = -4.0;
    camera.k1 = 0.015;
    const auto photo = photograph(drawing, camera, {0.8, 0.8, 0.8, 1.0, 21});
    return cv::imwrite(argv[1], photo.bgr, {cv::IMWRITE_JPEG_QUALITY, 88}) ? 0 : 1;
}

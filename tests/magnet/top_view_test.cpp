// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/top_view.h"
#include "magnet/drawn_magnet.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

// Outside truth: the pinhole camera that drew the photo; similar triangles for the stretch.

TEST_CASE("the camera's place is read from the mapping of the card") {
    drawn::Camera camera;
    camera.tiltDegrees = GENERATE(0.0, 8.0, 22.0);
    camera.foot = {47.0, 63.0};
    camera.height = 111.0;
    const CameraPlace place = cameraPlaceOf(drawn::paper(camera));
    CHECK(place.foot.x == Approx(47.0).margin(1e-6));
    CHECK(place.foot.y == Approx(63.0).margin(1e-6));
    CHECK(place.height == Approx(111.0).margin(1e-6));
}

TEST_CASE("a printed card of 96 percent brings the camera nearer by as much") {
    auto photo = drawn::paper({});
    photo.printScale.value = 0.96;
    CHECK(cameraPlaceOf(photo).height == Approx(96.0).margin(1e-6));
}

TEST_CASE("a point above the card appears stretched from the camera's foot") {
    const CameraPlace place{{50.0, 50.0}, 100.0};
    // Similar triangles: 20 mm out and 20 mm up of 100 appears at 20 * 100 / 80.
    CHECK(place.seen({70.0, 50.0}, 20.0).x == Approx(75.0));
    CHECK(place.settled({75.0, 50.0}, 20.0).x == Approx(70.0));
    CHECK(place.seen({70.0, 50.0}, 0.0).x == Approx(70.0));
}

TEST_CASE("white paper seen from above has the value one at every place and scale") {
    const auto photo = drawn::paper({});
    for (const double pxPerMm : {4.0, 16.0}) {
        const TopView view = viewFromAbove(photo, {20.0, 18.0, 64.0, 44.0}, pxPerMm);
        REQUIRE(view.light.size() == cv::Size(cvRound(64 * pxPerMm), cvRound(44 * pxPerMm)));
        // One code of 217 is 1 % of the light; the drawing rounds to codes.
        CHECK(cv::mean(view.light)[0] == Approx(1.0).margin(0.01));
    }
    CHECK_THROWS_AS(viewFromAbove(photo, {1e4, 1e4, 10.0, 10.0}, 4.0), std::logic_error);
}

TEST_CASE(
    "view pixels and millimetres convert both ways, the first pixel's centre half a pixel in") {
    TopView view;
    view.area = {10.0, 20.0, 30.0, 30.0};
    view.pxPerMm = 4.0;
    CHECK(view.onCard({0.0, 0.0}).x == Approx(10.125));
    CHECK(view.inView(view.onCard({7.0, 9.0})).y == Approx(9.0));
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/plane_mapping.h"
#include "rendered/rendered_card.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace swarfbook;
using swarfbook::test::Camera;

namespace {

std::vector<Camera> cameras() {
    Camera straight;
    Camera tilted;
    tilted.tilt = 25.0;
    tilted.azimuth = 130.0;
    tilted.roll = -8.0;
    Camera bent = tilted; // barrel, as strong as in an uncorrected wide lens
    bent.k1 = -0.12;
    bent.k2 = 0.02;
    Camera pincushion = straight;
    pincushion.k1 = 0.03;
    pincushion.k2 = -0.01;
    return {straight, tilted, bent, pincushion};
}

} // namespace

TEST_CASE("A place on the card comes back from the photo", "[card]") {
    for (const Camera& camera : cameras()) {
        const PlaneMapping m = camera.mapping();
        for (const double x : {0.0, 20.0, 52.0, 104.0})
            for (const double y : {0.0, 33.0, 80.0}) {
                const PointOnCard back = m.cardFromPhoto(m.photoFromCard({x, y}));
                CHECK(back.x == Approx(x).margin(1e-8));
                CHECK(back.y == Approx(y).margin(1e-8));
            }
    }
}

// Source: the pinhole camera with Brown's radial terms, written out in space in the test's own
// camera (Hartley & Zisserman, Multiple View Geometry, 2nd ed., sections 6.1 and 7.4).
TEST_CASE("The card's plane is seen as a pinhole camera sees it", "[card]") {
    for (const Camera& camera : cameras())
        for (const double x : {0.0, 52.0, 104.0})
            for (const double y : {0.0, 80.0}) {
                const PointInPhoto plane = camera.mapping().photoFromCard({x, y});
                const PointInPhoto space = camera.photoFromSpace({x, y, 0.0});
                CHECK(plane.u == Approx(space.u).margin(1e-8));
                CHECK(plane.v == Approx(space.v).margin(1e-8));
            }
}

// Source: closed form. A homography's area magnification is det H / w^3; a radial map's is
// s (1 + 3 k1 r^2 + 5 k2 r^4), the product of its tangential and its radial stretch.
TEST_CASE("The local scale is the root of the area magnification", "[card]") {
    for (const Camera& camera : cameras()) {
        const PlaneMapping m = camera.mapping();
        for (const PointOnCard p :
             {PointOnCard{52, 40}, PointOnCard{20, 18}, PointOnCard{84, 62}}) {
            const cv::Vec3d q = m.h * cv::Vec3d(p.x, p.y, 1.0);
            const double r2 = (q[0] * q[0] + q[1] * q[1]) / (q[2] * q[2]);
            const double stretch =
                (1.0 + r2 * (m.k1 + m.k2 * r2)) * (1.0 + r2 * (3.0 * m.k1 + 5.0 * m.k2 * r2));
            const double area = cv::determinant(m.h) / std::pow(q[2], 3) * stretch;
            CHECK(m.scaleAt(p).value() == Approx(m.focal * std::sqrt(area)).epsilon(1e-5));
        }
    }
    CHECK(Camera{}.mapping().scaleAt({10, 70}).value() == Approx(1500.0 / 95.0).epsilon(1e-9));
}

TEST_CASE("The camera's place is read from the mapping, whatever its scale and sign", "[card]") {
    for (const Camera& camera : cameras())
        for (const double factor : {1.0, 0.013, -4.0}) {
            PlaneMapping m = camera.mapping();
            m.h *= factor;
            const CameraStand stand = cameraOver(m);
            const cv::Vec3d place = camera.place();
            CHECK(stand.foot.x == Approx(place[0]).margin(1e-7));
            CHECK(stand.foot.y == Approx(place[1]).margin(1e-7));
            CHECK(stand.height.value() == Approx(-place[2]).epsilon(1e-9));
        }
}

TEST_CASE("A plane below the card is seen as a pinhole camera sees it", "[card]") {
    for (const Camera& camera : cameras())
        for (const double depth : {0.35, 2.0}) {
            const PlaneMapping below = mappingBelow(camera.mapping(), Millimetres(depth));
            for (const double x : {20.0, 84.0})
                for (const double y : {18.0, 62.0}) {
                    const PointInPhoto plane = below.photoFromCard({x, y});
                    const PointInPhoto space = camera.photoFromSpace({x, y, depth});
                    CHECK(plane.u == Approx(space.u).margin(1e-7));
                    CHECK(plane.v == Approx(space.v).margin(1e-7));
                }
        }
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/find_card.h"
#include "rendered/rendered_card.h"

#include <catch2/catch.hpp>
#include <opencv2/aruco.hpp>

#include <stdexcept>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

Drawing card(const std::string& layout) {
    Drawing d;
    d.layout = layoutNamed(layout);
    return d;
}

Camera above(const CardLayout& layout, double distance) {
    Camera c;
    c.aim = {layout.outer.width / 2.0, layout.outer.height / 2.0};
    c.distance = distance;
    return c;
}

Camera tilted(Camera c, double tilt, double azimuth, double roll) {
    c.tilt = tilt;
    c.azimuth = azimuth;
    c.roll = roll;
    return c;
}

std::string refusalOf(const Photo& photo) {
    const auto seen = findCard(photo, allLayouts());
    if (seen)
        return "none";
    CHECK_FALSE(seen.error().detail.empty());
    CHECK_FALSE(seen.error().advice.empty());
    return std::string(reasonName(seen.error().reason));
}

} // namespace

// The mapping is checked against the camera that drew the picture: 0.1 % of any length.
TEST_CASE("The mapping agrees with the camera within 0.1 % over the window", "[card]") {
    struct Case {
        std::string what, layout;
        Camera camera;
        Exposure exposure;
    };
    const Camera close = above(layoutNamed("close"), 100.0);
    const Camera wide = above(layoutNamed("wide"), 180.0);
    Camera bent = tilted(close, 14.0, 250.0, 4.0);
    bent.k1 = 0.02;
    bent.k2 = -0.01;
    Camera barrel = tilted(wide, 10.0, 30.0, -5.0);
    barrel.k1 = -0.06;
    barrel.k2 = 0.01;
    const Exposure usual{1.0, 1.0, 1.5, 1.0, 7};
    const Exposure poor{2.4, 1.8, 4.0, 0.6, 8};
    for (const Case& c : {Case{"straight from above", "close", close, usual},
                          Case{"tilted and turned", "close", tilted(close, 20, 40, 12), usual},
                          Case{"upside down", "close", tilted(close, 8, 100, 178), usual},
                          Case{"through a bending lens", "close", bent, usual},
                          Case{"blurred, noisy and dim", "close", bent, poor},
                          Case{"wide card, barrel lens", "wide", barrel, usual}}) {
        INFO(c.what);
        const Photo photo = photograph(card(c.layout), c.camera, c.exposure);
        const auto seen = findCard(photo, allLayouts());
        REQUIRE(seen);
        CHECK(seen->layout.name == c.layout);
        CHECK(worstScaleError(seen->mapping, c.camera.mapping(), seen->layout.window) < 0.1);
        CHECK(seen->markersUsed == 10);
        CHECK(seen->tilt.value() == Approx(c.camera.tilt).margin(0.5));
        CHECK(seen->residual.value() < 0.3);
        CHECK(seen->scaleUPercent > 0.0);
        CHECK(seen->scaleUPercent < 0.1);
        CHECK(seen->inkGrowth == Approx(0.0).margin(0.015));
    }
}

TEST_CASE("Ink that grew over every edge is not taken for a larger card", "[card]") {
    Drawing grown = card("close");
    grown.inkGrowth = 0.05;
    const Camera camera = tilted(above(grown.layout, 100.0), 10, 200, 3);
    const auto seen = findCard(photograph(grown, camera, {}), allLayouts());
    REQUIRE(seen);
    CHECK(seen->inkGrowth == Approx(0.05).margin(0.01));
    CHECK(worstScaleError(seen->mapping, camera.mapping(), grown.layout.window) < 0.1);
}

TEST_CASE("A card is found with one marker covered", "[card]") {
    Drawing d = card("close");
    d.covered = {12, 16};
    const Camera camera = tilted(above(d.layout, 100.0), 15, 300, -6);
    const auto seen = findCard(photograph(d, camera, {}), allLayouts());
    REQUIRE(seen);
    CHECK(seen->markersUsed == 8);
    CHECK(worstScaleError(seen->mapping, camera.mapping(), d.layout.window) < 0.1);
}

TEST_CASE("Too few markers are no card", "[card]") {
    Drawing three = card("close");
    three.covered = {11, 12, 14, 15, 16, 17, 18};
    CHECK(refusalOf(photograph(three, above(three.layout, 100.0), {})) == "no_card");
    Drawing corner = card("close"); // four, but only to the left of and above the window
    corner.covered = {13, 15, 16, 17, 18, 19};
    CHECK(refusalOf(photograph(corner, above(corner.layout, 100.0), {})) == "no_card");
    Drawing row = card("close"); // four of the upper row: its ends touch left and right
    row.covered = {14, 15, 16, 17, 18, 19};
    CHECK(refusalOf(photograph(row, above(row.layout, 100.0), {})) == "no_card");
    Drawing cleanReference = card("close");
    for (const auto& [id, centre] : cleanReference.layout.markers)
        cleanReference.covered.insert(id);
    CHECK(refusalOf(photograph(cleanReference, above(cleanReference.layout, 100.0), {})) ==
          "no_card");
}

TEST_CASE("A card of another marker family is no card", "[card]") {
    Drawing other = card("close");
    other.family = cv::aruco::DICT_6X6_250;
    CHECK(refusalOf(photograph(other, above(other.layout, 100.0), {})) == "no_card");
}

TEST_CASE("A window that is not wholly in sight means that the card is cut off", "[card]") {
    const Drawing d = card("close");
    for (const PointOnCard aim : {PointOnCard{8, 40}, PointOnCard{52, 84}, PointOnCard{100, 76}}) {
        Camera camera = above(d.layout, 95.0);
        camera.aim = aim;
        CHECK(refusalOf(photograph(d, camera, {})) == "card_cut_off");
    }
}

TEST_CASE("Markers of both layouts in one photo are mixed cards", "[card]") {
    const Drawing close = card("close");
    const Drawing wide = card("wide");
    Camera left = above(close.layout, 170.0);
    Camera right = above(wide.layout, 290.0);
    left.size = right.size = {1000, 1500};
    Photo both = photograph(close, left, {});
    cv::hconcat(both.bgr, photograph(wide, right, {}).bgr, both.bgr);
    CHECK(refusalOf(both) == "mixed_cards");
}

TEST_CASE("A card seen from 60 degrees is too tilted, from 40 it is measured", "[card]") {
    const Drawing d = card("close");
    const Camera camera = above(d.layout, 135.0);
    CHECK(refusalOf(photograph(d, tilted(camera, 60, 90, 0), {})) == "too_tilted");
    const Camera steep = tilted(camera, 40, 90, 0);
    const auto seen = findCard(photograph(d, steep, {}), allLayouts());
    REQUIRE(seen);
    CHECK(seen->tilt.value() == Approx(40.0).margin(0.5));
    CHECK(worstScaleError(seen->mapping, steep.mapping(), d.layout.window) < 0.15);
}

TEST_CASE("A strip of a few rows or columns shows no card, however long", "[card]") {
    for (const cv::Size size : {cv::Size(4000, 1), cv::Size(1, 4000), cv::Size(4000, 15),
                                cv::Size(4000, 16), cv::Size(9000, 17)}) {
        INFO(size);
        Photo strip;
        strip.bgr = cv::Mat(size, CV_8UC3, cv::Scalar(120, 130, 140));
        CHECK(refusalOf(strip) == "no_card");
    }
}

TEST_CASE("An empty picture is a mistake of the caller", "[card]") {
    CHECK_THROWS_AS(findCard(Photo{}, allLayouts()), std::logic_error);
}

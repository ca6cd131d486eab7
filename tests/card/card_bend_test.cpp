// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/calibrated_photo.h"
#include "rendered/rendered_card.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <tuple>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

struct Bend {
    double radius;
    bool up, alongY;
};

Drawing bentCard(const std::string& layout, const Bend& bend) {
    Drawing d;
    d.layout = layoutNamed(layout);
    d.bendRadius = bend.radius;
    d.bentUp = bend.up;
    d.bentDown = bend.alongY;
    return d;
}

Camera above(const CardLayout& layout, double tilt, double azimuth) {
    Camera c;
    c.aim = {layout.outer.width / 2.0, layout.outer.height / 2.0};
    c.distance = layout.name == "close" ? 105.0 : 185.0;
    c.tilt = tilt;
    c.azimuth = azimuth;
    return c;
}

/// Radius of the cylinder that rises by so much over the window: its sagitta, closed form.
double radiusFor(const CardLayout& layout, double rise, bool alongY) {
    const double half = (alongY ? layout.window.height : layout.window.width) / 2.0;
    return (half * half + rise * rise) / (2.0 * rise);
}

CardSighting sighting(const Drawing& drawing, const Camera& camera) {
    const auto seen = findCard(photograph(drawing, camera, {}), allLayouts());
    if (!seen)
        FAIL(seen.error().detail);
    return *seen;
}

bool saysBent(const CalibratedPhoto& photo) {
    return std::any_of(photo.cautions.begin(), photo.cautions.end(), [](const std::string& c) {
        return c.find("bent or curled") != std::string::npos &&
               c.find("Press it flat") != std::string::npos;
    });
}

} // namespace

TEST_CASE("a card on a cylinder is noticed, said and carried in the scale's uncertainty",
          "[bend]") {
    for (const std::string layout : {"close", "wide"})
        for (const auto& [rise, up, alongY] :
             {std::tuple(1.0, true, false), std::tuple(2.5, false, false),
              std::tuple(1.0, false, true), std::tuple(2.0, true, true)}) {
            const Bend bend{radiusFor(layoutNamed(layout), rise, alongY), up, alongY};
            const Drawing drawing = bentCard(layout, bend);
            const double truth = rise;
            for (const double tilt : {0.0, 14.0}) {
                const CardSighting seen = sighting(drawing, above(drawing.layout, tilt, 70.0));
                INFO(layout << ", radius " << bend.radius << (bend.up ? " up" : " down")
                            << (bend.alongY ? " along y" : " along x") << ", tilt " << tilt
                            << ": true rise " << truth << ", found " << seen.bend.rise.value()
                            << " +- " << seen.bend.riseU.value());
                CHECK(seen.bend.bent);
                // To first order in the height. A bend along y looks like one along x the other
                // way, which over these windows rises (64 / 44)^2 = 2.1 times as much.
                CHECK(seen.bend.rise.value() > 0.5 * truth);
                CHECK(seen.bend.rise.value() < 2.1 * 1.15 * truth);
                // Heights change lengths by z / H; a sagitta s spreads z by 0.3 s (rms of x^2).
                const double height = cameraOver(seen.mapping).height.value();
                CHECK(seen.scaleUPercent > 0.5 * 100.0 * 0.3 * truth / height);
            }
        }
}

TEST_CASE("the caution on a bent card says what to do", "[bend]") {
    const Drawing drawing =
        bentCard("close", {radiusFor(layoutNamed("close"), 1.5, false), true, false});
    const auto photo = calibratePhoto(photograph(drawing, above(drawing.layout, 6.0, 20.0), {}),
                                      allLayouts(), std::nullopt);
    REQUIRE(photo);
    CHECK(saysBent(*photo));
}

TEST_CASE("a card rolled up like a tube is bent or not found, never measured without a caution",
          "[bend]") {
    for (const bool up : {true, false}) {
        const Drawing drawing = bentCard("close", {120, up, false});
        const auto photo = calibratePhoto(photograph(drawing, above(drawing.layout, 8.0, 20.0), {}),
                                          allLayouts(), std::nullopt);
        if (photo)
            CHECK(saysBent(*photo));
        else
            CHECK(photo.error().reason == RefusalReason::noCard);
    }
}

TEST_CASE("a flat card is not called bent, however the lens bends or the camera leans", "[bend]") {
    for (const std::string layout : {"close", "wide"})
        for (const double tilt : {0.0, 15.0, 40.0})
            for (const double k1 : {-0.06, 0.05}) {
                Drawing flat;
                flat.layout = layoutNamed(layout);
                Camera camera = above(flat.layout, tilt, 130.0);
                camera.distance *= tilt > 30.0 ? 1.4 : 1.1;
                camera.k1 = k1;
                const CardSighting seen = sighting(flat, camera);
                INFO(layout << ", tilt " << tilt << ", k1 " << k1 << ": "
                            << seen.bend.rise.value());
                CHECK_FALSE(seen.bend.bent);
                CHECK(seen.scaleUPercent < 0.1);
            }
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "gauge/check_standard.h"
#include "rendered/rendered_card.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

Camera above(double tilt, double azimuth, double roll = 0.0) {
    Camera c;
    c.size = {3000, 2250};
    c.focal = 2250.0;
    c.distance = 105.0;
    c.tilt = tilt;
    c.azimuth = azimuth;
    c.roll = roll;
    return c;
}

Drawing closeCard() {
    Drawing d;
    d.layout = layoutNamed("close");
    return d;
}

CheckStandard known(double size, std::optional<StandardKind> kind) {
    return {{Millimetres(size), Millimetres(0.003)}, kind, {}};
}

/// Photographed, calibrated with the check bar measured as drawn, and read.
StandardSearch readIn(const Drawing& drawing, const Camera& camera, const CheckStandard& thing,
                      const Exposure& exposure = {}) {
    const auto photo =
        calibratePhoto(photograph(drawing, camera, exposure), allLayouts(), Millimetres(80.0));
    REQUIRE(photo);
    return readCheckStandard(*photo, thing);
}

StandardReading reading(const StandardSearch& search) {
    if (const auto* none = std::get_if<StandardNotRead>(&search))
        FAIL(none->detail << " " << none->advice);
    return std::get<StandardReading>(search);
}

StandardNotRead none(const StandardSearch& search) {
    REQUIRE(std::holds_alternative<StandardNotRead>(search));
    const auto no = std::get<StandardNotRead>(search);
    CHECK_FALSE(no.detail.empty());
    CHECK_FALSE(no.advice.empty());
    return no;
}

} // namespace

// Truth: the diameter drawn. The pinhole camera that draws a body shows it larger by its height;
// without that taken into account a 6 mm shank would be read 3 % too thick.
TEST_CASE("a drill shank is read within its own uncertainty, from above and at a slant",
          "[thing]") {
    for (const double diameter : {1.0, 2.0, 6.0})
        for (const Camera& camera : {above(0, 0), above(14, 30, 7), above(22, 110, -20)}) {
            Drawing d = closeCard();
            d.bodies.push_back({{50, 38}, diameter, 34.0, 27.0});
            const CheckStandard thing = known(diameter, StandardKind::shank);
            const StandardReading r = reading(readIn(d, camera, thing));
            INFO(diameter << " mm, tilt " << camera.tilt << ": " << r.size.value.value() << " +- "
                          << r.size.standardUncertainty.value());
            CHECK(conformityOf(r, thing).agrees());
            // A tenth of a pixel an edge, and the fit of the card: 0.1 % (its own test).
            CHECK(std::abs(r.size.value.value() - diameter) < 0.2 / 21.0 + 0.001 * diameter);
            CHECK(r.seen.value() > diameter * 1.003);
            CHECK(r.length.value() > 25.0);
        }
}

TEST_CASE("a dull wire, a strip and a ball are read likewise", "[thing]") {
    Drawing d = closeCard();
    const cv::Vec3d dull(0.05, 0.05, 0.05);
    d.bodies.push_back({{40, 30}, 0.5, 25.0, 80.0, dull, dull});
    d.bodies.push_back({{70, 50}, 6.35, 0.0});
    d.pieces.push_back({{50, 55}, 22.0, 5.0, 12.0, {0.2, 0.2, 0.2}});
    const Camera camera = above(12, 200, 3);
    const StandardReading wire = reading(readIn(d, camera, known(0.5, StandardKind::wire)));
    CHECK(wire.size.value.value() == Approx(0.5).margin(0.02));
    const StandardReading ball = reading(readIn(d, camera, known(6.35, StandardKind::ball)));
    CHECK(ball.size.value.value() == Approx(6.35).margin(0.02));
    CHECK(ball.centre.x == Approx(70.0).margin(0.3));
    CheckStandard flat = known(5.0, StandardKind::strip);
    flat.thickness = Millimetres(0.0); // a piece is drawn without height
    const StandardReading strip = reading(readIn(d, camera, flat));
    CHECK(strip.size.value.value() == Approx(5.0).margin(0.02));
    // An unknown thickness is part of the uncertainty: 0 to 1 mm at about 105 mm.
    flat.thickness = std::nullopt;
    const StandardReading unknown = reading(readIn(d, camera, flat));
    CHECK(unknown.size.standardUncertainty > strip.size.standardUncertainty);
    CHECK(conformityOf(unknown, flat).agrees());
}

TEST_CASE("the uncertainty of a bar not known to be round or flat covers both", "[thing]") {
    Drawing d = closeCard();
    d.bodies.push_back({{50, 38}, 4.0, 30.0, -15.0});
    const CheckStandard untold = known(4.0, std::nullopt);
    const StandardReading r = reading(readIn(d, above(8, 45), untold));
    CHECK_FALSE(r.kind);
    CHECK(conformityOf(r, untold).agrees());
    CHECK(r.size.value < r.seen);
    const StandardReading told = reading(readIn(d, above(8, 45), known(4.0, StandardKind::shank)));
    CHECK(told.size.standardUncertainty < r.size.standardUncertainty);
}

TEST_CASE("a wrong size is distinguished from a right one", "[thing]") {
    Drawing d = closeCard();
    d.bodies.push_back({{50, 38}, 2.1, 30.0, 0.0});
    const CheckStandard thing = known(2.0, StandardKind::shank);
    const StandardReading r = reading(readIn(d, above(5, 90), thing));
    CHECK_FALSE(conformityOf(r, thing).agrees());
    CHECK(conformityOf(r, thing).off.value() == Approx(0.1).margin(0.015));
}

TEST_CASE("a thing that cannot be read is reported, with what to do", "[thing]") {
    const Camera camera = above(6, 60);
    Drawing empty = closeCard();
    none(readIn(empty, camera, known(2.0, std::nullopt)));
    Drawing other = closeCard();
    other.bodies.push_back({{50, 38}, 5.0, 30.0, 0.0});
    CHECK_THAT(none(readIn(other, camera, known(3.0, StandardKind::shank))).detail,
               Catch::Contains("nearest in size"));
    Drawing two = closeCard();
    two.bodies.push_back({{50, 30}, 2.0, 30.0, 0.0});
    two.bodies.push_back({{50, 50}, 2.05, 30.0, 0.0});
    CHECK_THAT(none(readIn(two, camera, known(2.0, StandardKind::shank))).detail,
               Catch::Contains("Several"));
    Drawing thin = closeCard();
    thin.bodies.push_back({{50, 38}, 0.15, 30.0, 0.0});
    CHECK_THAT(none(readIn(thin, camera, known(0.15, StandardKind::wire))).detail,
               Catch::Contains("too thin"));
    Drawing shadow = closeCard(); // a hard shadow, half a millimetre wide, along one side
    shadow.pieces.push_back({{50, 39.0}, 30.0, 2.0, 0.0, {0.25, 0.25, 0.25}});
    shadow.bodies.push_back({{50, 38}, 3.0, 30.0, 0.0});
    const auto shadowed = readIn(shadow, camera, known(3.0, StandardKind::shank));
    CHECK_THAT(none(shadowed).detail, Catch::Contains("shadow"));
    CHECK_THROWS_AS(readIn(empty, camera, known(0.0, std::nullopt)), std::logic_error);
}

TEST_CASE("names of things convert both ways", "[thing]") {
    for (const StandardKind kind :
         {StandardKind::shank, StandardKind::wire, StandardKind::strip, StandardKind::ball})
        CHECK(standardFromName(standardName(kind)) == kind);
    CHECK_THROWS_AS(standardFromName("gauge"), std::invalid_argument);
}

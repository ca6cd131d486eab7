// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "card/calibrated_photo.h"
#include "rendered/rendered_card.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

Photo closeCard(const Exposure& exposure) {
    static const View view = [] {
        Drawing drawing;
        drawing.layout = layoutNamed("close");
        return View(drawing, Camera{});
    }();
    return view.exposed(exposure);
}

std::string refusalOf(const Exposure& exposure) {
    const auto photo = calibratePhoto(closeCard(exposure), allLayouts(), std::nullopt);
    if (photo)
        return "none";
    CHECK_FALSE(photo.error().detail.empty());
    CHECK_FALSE(photo.error().advice.empty());
    return std::string(reasonName(photo.error().reason));
}

Exposure withGain(double gain) {
    Exposure e;
    e.gain = gain;
    return e;
}

Exposure withBlur(double sigma) {
    Exposure e;
    e.blurAcross = e.blurDown = sigma;
    return e;
}

} // namespace

TEST_CASE("A photo that shows too little is refused with its reason", "[card]") {
    CHECK(refusalOf(withGain(1.0)) == "none");
    CHECK(refusalOf(withGain(0.05)) == "too_dark");   // paper at code 48
    CHECK(refusalOf(withGain(0.0005)) == "too_dark"); // not even markers are seen
    CHECK(refusalOf(withGain(2.2)) == "clipped");     // paper at 1.3 of the range
    CHECK(refusalOf(withBlur(4.0)) == "blurred");     // edges over 0.65 mm
}

TEST_CASE("The card's own white is the light it was drawn in", "[card]") {
    for (const double gain : {0.5, 1.0, 1.4}) {
        const auto photo = calibratePhoto(closeCard(withGain(gain)), allLayouts(), std::nullopt);
        REQUIRE(photo);
        for (const PointOnCard p : {PointOnCard{22, 20}, PointOnCard{52, 40}, PointOnCard{82, 60}})
            for (int channel = 0; channel < 3; ++channel)
                CHECK(photo->light.whiteAt(p)[channel] == Approx(0.6 * gain).epsilon(0.02));
        CHECK(photo->light.clippedShare == 0.0);
    }
}

TEST_CASE("A measured check bar scales every length and place", "[card]") {
    const Photo photo = closeCard({});
    const auto unchecked = calibratePhoto(photo, allLayouts(), std::nullopt);
    const auto checked = calibratePhoto(photo, allLayouts(), Millimetres(76.8));
    REQUIRE(unchecked);
    REQUIRE(checked);
    CHECK_FALSE(unchecked->printScale.checked);
    CHECK(unchecked->printScale.value == 1.0);
    CHECK(checked->printScale.checked);
    CHECK(checked->printScale.value == Approx(0.96).epsilon(1e-12));
    CHECK(checked->printScale.standardUncertainty < unchecked->printScale.standardUncertainty);
    const double nominal = 1500.0 / 95.0; // px/mm: focal length over distance, no tilt
    CHECK(unchecked->trueScale().value() == Approx(nominal).epsilon(1e-3));
    CHECK(checked->trueScale().value() == Approx(nominal / 0.96).epsilon(1e-3));
    const PointInPhoto centre{999.5, 749.5}; // looks at the card's (52, 40)
    CHECK(checked->trueFromPhoto(centre).x == Approx(52.0 * 0.96).margin(0.01));
    CHECK(checked->trueFromPhoto(centre).y == Approx(40.0 * 0.96).margin(0.01));
    CHECK(checked->photoFromTrue(checked->trueFromPhoto(centre)).u == Approx(centre.u));
    CHECK_THROWS_AS(calibratePhoto(photo, allLayouts(), Millimetres(60.0)), UsageError);
}

TEST_CASE("The resolution limit is 3 pixels or one and a half edge widths", "[card]") {
    Sharpness sharp{Pixels(1.0), Pixels(1.2), Pixels(0.9), 16};
    CHECK(seenFromOf(sharp, PixelsPerMillimetre(20.0)).value() == Approx(3.0 / 20.0));
    Sharpness soft{Pixels(4.0), Pixels(6.0), Pixels(3.0), 16};
    CHECK(seenFromOf(soft, PixelsPerMillimetre(20.0)).value() == Approx(9.0 / 20.0));
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/calibrated_photo.h"
#include "card/card_sheets.h"
#include "card/serial_code.h"
#include "rendered/rendered_card.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>
#include <poppler-image.h>
#include <poppler-page-renderer.h>
#include <poppler-page.h>

#include <cmath>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

const std::string serial = "K7Q-M4X";

/// The printed sheet as a flat photo of `perMillimetre`, a little soft.
Photo photoOfSheet(const CardSheet& sheet, double perMillimetre) {
    const auto document = documentOf(sheet);
    const std::unique_ptr<poppler::page> page(document->create_page(0));
    poppler::page_renderer renderer;
    renderer.set_image_format(poppler::image::format_bgr24);
    renderer.set_render_hint(poppler::page_renderer::antialiasing, true);
    poppler::image image =
        renderer.render_page(page.get(), perMillimetre * 25.4, perMillimetre * 25.4);
    REQUIRE(image.is_valid());
    const cv::Mat drawn(image.height(), image.width(), CV_8UC3, image.data(),
                        static_cast<std::size_t>(image.bytes_per_row()));
    Photo photo;
    cv::GaussianBlur(drawn, photo.bgr, {}, 0.8);
    photo.facts.widthPx = photo.bgr.cols;
    photo.facts.heightPx = photo.bgr.rows;
    return photo;
}

/// A phone of 12 megapixels over the whole card.
Camera phoneOver(const CardLayout& layout, double tilt, double perMillimetre) {
    Camera camera;
    camera.size = {4000, 3000};
    camera.focal = 3000.0;
    camera.tilt = tilt;
    camera.azimuth = 35.0;
    camera.roll = 4.0;
    camera.distance = camera.focal / perMillimetre;
    camera.aim = {layout.outer.width / 2.0, layout.outer.height / 2.0};
    return camera;
}

Photo drawnPhoto(const std::string& layout, bool coded, const Camera& camera,
                 const Exposure& exposure = {}) {
    Drawing drawing;
    drawing.layout = layoutNamed(layout);
    if (coded)
        drawing.serial = serial;
    return photograph(drawing, camera, exposure);
}

std::string readIn(const Photo& photo) {
    const auto card = findCard(photo, allLayouts());
    REQUIRE(card);
    return readSerialCode(photo.bgr, *card).value_or("");
}

/// Nothing printed on the card, nor its window, reaches into this box.
bool isWhite(const CardLayout& layout, const CardRect& box) {
    const auto apart = [&](PointOnCard centre, double side) {
        return std::abs(box.x + box.width / 2.0 - centre.x) >= (box.width + side) / 2.0 ||
               std::abs(box.y + box.height / 2.0 - centre.y) >= (box.height + side) / 2.0;
    };
    bool white = true;
    for (const auto& [id, centre] : layout.markers)
        white = white && apart(centre, layout.markerSize);
    for (const GreyPatch& patch : layout.patches)
        white = white && apart(patch.centre, layout.patchSize);
    for (const PointOnCard centre : layout.slantedCentres)
        white = white && apart(centre, layout.slantedSize * 1.1); // turned by 5 degrees
    const CardRect& w = layout.window;
    return white && (box.x + box.width <= w.x || box.y + box.height <= w.y);
}

} // namespace

// The window's own surround is read as paper up to 3.5 mm from its edge (magnet/window_look.cpp),
// the paper beside a grey patch 1.6 mm from it at the patch's middle (card/tone_curve.cpp).
TEST_CASE("the code has a place of its own on the card, with its white surround") {
    for (const CardLayout& layout : allLayouts()) {
        INFO(layout.name);
        const CardRect& code = layout.serialCode;
        const double quiet = codeQuietModules * code.width / codeModules;
        CHECK(isWhite(layout, {code.x - quiet, code.y - quiet, code.width + 2.0 * quiet,
                               code.height + 2.0 * quiet}));
        const double module = layout.markerSize / 8.0; // white surround of the markers themselves
        CHECK(isWhite(
            layout, {code.x - module, code.y - module, code.width + module, code.height + module}));
        CHECK(code.y + code.height <= layout.window.y - 3.5);
        for (const GreyPatch& patch : layout.patches) {
            const double beside = patch.centre.x - layout.patchSize / 2.0 - 1.6;
            const bool inRow =
                patch.centre.y + 0.35 > code.y && patch.centre.y - 0.35 < code.y + code.height;
            if (inRow)
                CHECK((beside - 0.35 > code.x + code.width || beside + 0.35 < code.x));
        }
    }
}

TEST_CASE("the code of a printed sheet is read, for both cards") {
    for (const CardSheet& sheet :
         {CardSheet{layoutNamed("close"), serial, PaperSize::a4, false},
          CardSheet{layoutNamed("wide"), serial, PaperSize::letter, true}}) {
        INFO(sheet.layout.name);
        const Photo photo = photoOfSheet(sheet, sheet.layout.name == "close" ? 26.0 : 16.0);
        CHECK(readIn(photo) == serial);
    }
}

TEST_CASE("a card that an earlier program numbered is printed without a code") {
    const Photo photo = photoOfSheet({layouts().front(), "C0042", PaperSize::a4, false}, 20.0);
    const auto card = findCard(photo, allLayouts());
    REQUIRE(card);
    CHECK_FALSE(showsSerialCode(photo.bgr, *card));
    CHECK(readIn(photo).empty());
}

TEST_CASE("the code is read in a slanting photo of the wide card, with noise, at its usual scale") {
    for (const double tilt : {0.0, 25.0, 40.0}) {
        INFO("tilt " << tilt);
        const Camera camera = phoneOver(layoutNamed("wide"), tilt, 18.0);
        CHECK(readIn(drawnPhoto("wide", true, camera, {1.2, 1.2, 3.0})) == serial);
    }
}

TEST_CASE("the code is read on the close card, and a soft photo is not misread") {
    const Camera camera = phoneOver(layoutNamed("close"), 15.0, 30.0);
    CHECK(readIn(drawnPhoto("close", true, camera)) == serial);
    for (const double blur : {2.0, 3.0, 4.0, 6.0}) {
        INFO("blur " << blur);
        const std::string read = readIn(drawnPhoto("close", true, camera, {blur, blur, 2.0}));
        CHECK((read == serial || read.empty()));
    }
}

TEST_CASE("a card with a code is found and its light read as without a code") {
    for (const std::string layout : {"close", "wide"}) {
        INFO(layout);
        const Camera camera = phoneOver(layoutNamed(layout), 12.0, layout == "close" ? 30.0 : 18.0);
        const auto plain =
            calibratePhoto(drawnPhoto(layout, false, camera), allLayouts(), std::nullopt);
        const auto coded =
            calibratePhoto(drawnPhoto(layout, true, camera), allLayouts(), std::nullopt);
        REQUIRE(plain);
        REQUIRE(coded);
        CHECK(plain->serial.empty());
        CHECK(coded->serial == serial);
        CHECK(coded->card.markersUsed == plain->card.markersUsed);
        const CardRect& w = coded->card.layout.window;
        for (const PointOnCard p :
             {PointOnCard{w.x, w.y}, PointOnCard{w.x + w.width, w.y},
              PointOnCard{w.x, w.y + w.height}, PointOnCard{w.x + w.width, w.y + w.height}}) {
            const PointInPhoto a = plain->card.mapping.photoFromCard(p);
            const PointInPhoto b = coded->card.mapping.photoFromCard(p);
            CHECK(std::hypot(a.u - b.u, a.v - b.v) < 0.05); // px: a twentieth of a pixel's size
            for (int channel = 0; channel < 3; ++channel)
                CHECK(coded->light.whiteAt(p)[channel] ==
                      Approx(plain->light.whiteAt(p)[channel]).epsilon(0.003));
        }
        CHECK(coded->sharpness.edgeWidth.value() ==
              Approx(plain->sharpness.edgeWidth.value()).epsilon(0.01));
        CHECK(coded->cautions == plain->cautions);
    }
}

TEST_CASE("the check bar is looked up by the serial on the card unless a bar was given") {
    const Photo photo = drawnPhoto("close", true, phoneOver(layoutNamed("close"), 0.0, 30.0));
    std::string asked;
    KnownBars bars;
    bars.bySerial = [&](const std::string& of, const std::string& layout) {
        asked = of + " " + layout;
        return std::optional<Millimetres>(79.2);
    };
    const auto known = calibratePhoto(photo, allLayouts(), bars);
    REQUIRE(known);
    CHECK(asked == serial + " close");
    CHECK(known->printScale.value == Approx(0.99));
    CHECK(known->printScale.checked);
    asked.clear();
    bars.ofThisCard = Millimetres(80.0);
    CHECK(calibratePhoto(photo, allLayouts(), bars)->printScale.value == Approx(1.0));
    CHECK(asked.empty());
}

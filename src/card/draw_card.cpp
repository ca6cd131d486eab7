// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/draw_card.h"

#include "card/card_words.h"
#include "card/serial_code.h"

#include <cairo-pdf.h>
#include <cairo.h>
#include <opencv2/aruco.hpp>

#include <cmath>
#include <memory>
#include <numbers>
#include <stdexcept>

namespace swarfbook {
namespace {

constexpr double thinLine = 0.2;     // mm, the card's outlines
constexpr double outlineGrey = 0.5;  // lightness: seen by eye, weak beside the markers' edges
constexpr double barLine = 0.3;      // mm, the check bar itself; its end strokes are thin lines
constexpr double strokeBelow = 1.2;  // mm, an end stroke below the bar
constexpr double gapAboveCard = 5.0; // mm
constexpr double gapBelowCard = 7.0; // mm
constexpr double pointsPerMillimetre = 72.0 / 25.4;

struct Free {
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
    void operator()(cairo_t* pen) const { cairo_destroy(pen); }
};

void setGrey(cairo_t* pen, double lightness) {
    cairo_set_source_rgb(pen, lightness, lightness, lightness);
}

void outline(cairo_t* pen, const CardRect& rect, double lightness) {
    setGrey(pen, lightness);
    cairo_set_line_width(pen, thinLine);
    cairo_rectangle(pen, rect.x, rect.y, rect.width, rect.height);
    cairo_stroke(pen);
}

CardRect squareAt(PointOnCard centre, double side) {
    return {centre.x - side / 2.0, centre.y - side / 2.0, side, side};
}

/// One path of all black runs and one fill, so that no seams show between modules.
void drawMarker(cairo_t* pen, int id, PointOnCard centre, double size) {
    constexpr int modules = 8; // 6 x 6 bits and one black module all round
    cv::Mat picture;
    cv::aruco::drawMarker(cv::aruco::getPredefinedDictionary(cv::aruco::DICT_APRILTAG_36h11), id,
                          modules, picture, 1);
    const double module = size / modules;
    const CardRect square = squareAt(centre, size);
    for (int row = 0; row < modules; ++row)
        for (int from = 0; from < modules;) {
            int to = from;
            while (to < modules && picture.at<unsigned char>(row, to) == 0)
                ++to;
            if (to > from)
                cairo_rectangle(pen, square.x + from * module, square.y + row * module,
                                (to - from) * module, module);
            from = to + 1;
        }
    setGrey(pen, 0.0);
    cairo_fill(pen);
}

void drawPatch(cairo_t* pen, const GreyPatch& patch, double size) {
    const CardRect square = squareAt(patch.centre, size);
    if (patch.ink <= 0.0) {
        outline(pen, square, 0.0);
        return;
    }
    setGrey(pen, 1.0 - patch.ink);
    cairo_rectangle(pen, square.x, square.y, size, size);
    cairo_fill(pen);
}

/// Cairo's y points down, so a positive angle turns clockwise as seen.
void drawSlantedSquare(cairo_t* pen, PointOnCard centre, double size, double turnDeg) {
    cairo_save(pen);
    cairo_translate(pen, centre.x, centre.y);
    cairo_rotate(pen, turnDeg * std::numbers::pi / 180.0);
    cairo_rectangle(pen, -size / 2.0, -size / 2.0, size, size);
    setGrey(pen, 0.0);
    cairo_fill(pen);
    cairo_restore(pen);
}

/// The end strokes are centred on the bar's ends and stay out of the markers' quiet zone.
void drawCheckBar(cairo_t* pen, const CardLayout& layout) {
    const double y = layout.checkBarY;
    const double top =
        carddrawing::lowestRowBottom(layout) + carddrawing::quietZone(layout.markerSize);
    setGrey(pen, 0.0);
    cairo_set_line_width(pen, barLine);
    cairo_move_to(pen, layout.checkBarX0, y);
    cairo_line_to(pen, layout.checkBarX1, y);
    cairo_stroke(pen);
    cairo_set_line_width(pen, thinLine);
    for (const double x : {layout.checkBarX0, layout.checkBarX1}) {
        cairo_move_to(pen, x, top);
        cairo_line_to(pen, x, y + strokeBelow);
        cairo_stroke(pen);
    }
}

void drawCard(cairo_t* pen, const CardSheet& sheet) {
    const CardLayout& layout = sheet.layout;
    outline(pen, layout.outer, outlineGrey);
    outline(pen, layout.window, outlineGrey);
    for (const auto& [id, centre] : layout.markers)
        drawMarker(pen, id, centre, layout.markerSize);
    for (const GreyPatch& patch : layout.patches)
        drawPatch(pen, patch, layout.patchSize);
    for (const PointOnCard& centre : layout.slantedCentres)
        drawSlantedSquare(pen, centre, layout.slantedSize, layout.slantedTurnDeg);
    drawCheckBar(pen, layout);
    drawSerialCode(pen, layout, sheet.serial);
    carddrawing::drawMarginLine(pen, sheet);
}

void drawSheet(cairo_t* pen, const CardSheet& sheet) {
    const PointOnCard corner = cardOnSheet(sheet);
    setGrey(pen, 0.0);
    if (carddrawing::drawHeading(pen, sheet) > corner.y - 1.0)
        throw std::logic_error("the heading does not fit above the card");
    cairo_save(pen);
    cairo_translate(pen, corner.x, corner.y);
    drawCard(pen, sheet);
    cairo_restore(pen);
    setGrey(pen, 0.0);
    const double top = corner.y + sheet.layout.outer.height + gapBelowCard;
    const double end = carddrawing::drawSteps(pen, sheet, top);
    if (end > sheetSize(sheet.paper).height.value() - carddrawing::endMargin)
        throw std::logic_error("the instructions do not fit below the card");
}

cairo_status_t append(void* bytes, const unsigned char* data, unsigned int length) {
    auto& all = *static_cast<std::vector<unsigned char>*>(bytes);
    all.insert(all.end(), data, data + length);
    return CAIRO_STATUS_SUCCESS;
}

void requireGood(cairo_status_t status) {
    if (status != CAIRO_STATUS_SUCCESS)
        throw std::runtime_error(std::string("The card could not be drawn: ") +
                                 cairo_status_to_string(status) + ".");
}

} // namespace

SheetSize sheetSize(PaperSize paper) {
    return paper == PaperSize::a4 ? SheetSize{Millimetres(210.0), Millimetres(297.0)}
                                  : SheetSize{Millimetres(215.9), Millimetres(279.4)};
}

PointOnCard cardOnSheet(const CardSheet& sheet) {
    constexpr double headingRoom = 12.5; // mm, checked when the heading is drawn
    const double x = (sheetSize(sheet.paper).width.value() - sheet.layout.outer.width) / 2.0;
    return {x, carddrawing::endMargin + headingRoom + gapAboveCard};
}

std::vector<unsigned char> drawCardPdf(const CardSheet& sheet) {
    if (cardOnSheet(sheet).x < carddrawing::sideMargin)
        throw std::logic_error("the card is too wide for the sheet");
    const SheetSize size = sheetSize(sheet.paper);
    std::vector<unsigned char> bytes;
    {
        const std::unique_ptr<cairo_surface_t, Free> surface(cairo_pdf_surface_create_for_stream(
            append, &bytes, size.width.value() * pointsPerMillimetre,
            size.height.value() * pointsPerMillimetre));
        const std::string title = "swarfbook reference card " + sheet.serial;
        cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, title.c_str());
        // without its date: the same card is the same file
        cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, nullptr);
        const std::unique_ptr<cairo_t, Free> pen(cairo_create(surface.get()));
        cairo_scale(pen.get(), pointsPerMillimetre, pointsPerMillimetre);
        drawSheet(pen.get(), sheet);
        cairo_show_page(pen.get());
        requireGood(cairo_status(pen.get()));
        cairo_surface_finish(surface.get());
        requireGood(cairo_surface_status(surface.get()));
    }
    return bytes;
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/drawing.h"

#include "base/text.h"

#include <opencv2/imgproc.hpp>
#include <pango/pangocairo.h>

#include <algorithm>
#include <stdexcept>

namespace swarfbook {

namespace {

struct GRelease {
    void operator()(PangoLayout* p) const { g_object_unref(p); }
    void operator()(PangoFontDescription* p) const { pango_font_description_free(p); }
};
using Layout = std::unique_ptr<PangoLayout, GRelease>;

PangoAlignment pangoAlign(Align align) {
    switch (align) {
    case Align::centre:
        return PANGO_ALIGN_CENTER;
    case Align::right:
        return PANGO_ALIGN_RIGHT;
    case Align::left:
        break;
    }
    return PANGO_ALIGN_LEFT;
}

/// Hinting off and metrics unrounded, so that text takes the same room on any surface.
void setFontOptions(PangoLayout* layout) {
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(pango_layout_get_context(layout), options);
    cairo_font_options_destroy(options);
}

/// A number and its unit or uncertainty stay on one line: the blank between them does not break.
std::string keptTogether(std::string_view text) {
    std::string kept;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const std::string_view rest = text.substr(i);
        bool together = false;
        for (const std::string_view next : {" %", " mm", " km", " \u00b1", " cm\u00b2"})
            together = together || (i > 0 && rest.substr(0, next.size()) == next);
        const bool afterPlusMinus =
            rest[0] == ' ' && kept.size() >= 2 && kept.compare(kept.size() - 2, 2, "\u00b1") == 0;
        if (together || afterPlusMinus)
            kept += "\u00a0";
        else
            kept += rest[0];
    }
    return kept;
}

/// The text for Pango: nothing unprintable; and if it will end in an ellipsis, not much more than
/// fits, because Pango's time grows faster than the text.
std::string textToSet(std::string_view text, const TextStyle& style) {
    if (style.maxLines > 0 && style.width > 0.0 && style.size > 0.0) {
        const auto most = static_cast<std::size_t>(8.0 * style.maxLines * style.width / style.size);
        return keptTogether(shown(piecesOf(text, most + 64).front(), Breaks::keep));
    }
    return keptTogether(shown(text, Breaks::keep));
}

Layout layoutOf(cairo_t* pen, std::string_view text, const TextStyle& style) {
    Layout layout(pango_cairo_create_layout(pen));
    setFontOptions(layout.get());
    std::unique_ptr<PangoFontDescription, GRelease> font(pango_font_description_new());
    pango_font_description_set_family(font.get(), style.tabularWords ? "DejaVu Sans Mono,monospace"
                                                                     : "DejaVu Sans,sans-serif");
    pango_font_description_set_absolute_size(font.get(), style.size * PANGO_SCALE);
    if (style.bold)
        pango_font_description_set_weight(font.get(), PANGO_WEIGHT_BOLD);
    if (style.italic)
        pango_font_description_set_style(font.get(), PANGO_STYLE_OBLIQUE);
    pango_layout_set_font_description(layout.get(), font.get());
    if (style.width > 0.0) {
        pango_layout_set_width(layout.get(), static_cast<int>(style.width * PANGO_SCALE));
        pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
    }
    if (style.maxLines > 0) {
        pango_layout_set_height(layout.get(), -style.maxLines);
        pango_layout_set_ellipsize(layout.get(), PANGO_ELLIPSIZE_END);
    }
    pango_layout_set_alignment(layout.get(), pangoAlign(style.align));
    const std::string set = textToSet(text, style);
    pango_layout_set_text(layout.get(), set.data(), static_cast<int>(set.size()));
    return layout;
}

Extent extentOf(PangoLayout* layout) {
    PangoRectangle logical;
    pango_layout_get_extents(layout, nullptr, &logical);
    return {static_cast<double>(logical.width) / PANGO_SCALE,
            static_cast<double>(logical.height) / PANGO_SCALE};
}

} // namespace

void setInk(cairo_t* pen, Ink ink) {
    cairo_set_source_rgba(pen, ink.red, ink.green, ink.blue, ink.opacity);
}

Extent textExtent(cairo_t* pen, std::string_view text, const TextStyle& style) {
    return extentOf(layoutOf(pen, text, style).get());
}

Extent drawText(cairo_t* pen, Spot at, std::string_view text, const TextStyle& style) {
    const Layout layout = layoutOf(pen, text, style);
    setInk(pen, style.ink);
    cairo_move_to(pen, at.x, at.y);
    pango_cairo_show_layout(pen, layout.get());
    return extentOf(layout.get());
}

Extent drawHaloText(cairo_t* pen, Spot at, std::string_view text, const HaloStyle& style) {
    const Layout layout = layoutOf(pen, text, style.letters);
    cairo_save(pen);
    cairo_move_to(pen, at.x, at.y);
    pango_cairo_layout_path(pen, layout.get());
    setInk(pen, style.halo);
    cairo_set_line_join(pen, CAIRO_LINE_JOIN_ROUND);
    cairo_set_line_width(pen, style.letters.size * 0.28);
    cairo_stroke_preserve(pen);
    setInk(pen, style.letters.ink);
    cairo_fill(pen);
    cairo_restore(pen);
    return extentOf(layout.get());
}

Drawing::Drawing()
    : surface_(cairo_recording_surface_create(CAIRO_CONTENT_COLOR_ALPHA, nullptr)),
      pen_(cairo_create(surface_.get())) {}

void Drawing::putOnto(cv::Mat& bgr) const {
    constexpr int band = 512; // rows
    for (int y = 0; y < bgr.rows; y += band) {
        cv::Mat rows = bgr.rowRange(y, std::min(bgr.rows, y + band));
        const Picture picture(rows);
        cairo_set_source_surface(picture.pen(), surface_.get(), 0.0, -y);
        cairo_paint(picture.pen());
        if (cairo_status(picture.pen()) != CAIRO_STATUS_SUCCESS)
            throw std::runtime_error("The picture is too large to draw on.");
        picture.bgr().copyTo(rows);
    }
}

Picture::Picture(const cv::Mat& bgr) {
    if (bgr.empty() || bgr.type() != CV_8UC3)
        throw std::logic_error("Picture needs an 8-bit BGR picture");
    cv::cvtColor(bgr, pixels_, cv::COLOR_BGR2BGRA);
    open();
}

Picture::Picture(int width, int height) {
    if (width < 1 || height < 1)
        throw std::logic_error("Picture needs at least one pixel");
    pixels_ = cv::Mat(height, width, CV_8UC4, cv::Scalar::all(255));
    open();
}

void Picture::open() {
    surface_.reset(cairo_image_surface_create_for_data(pixels_.data, CAIRO_FORMAT_RGB24,
                                                       pixels_.cols, pixels_.rows,
                                                       static_cast<int>(pixels_.step)));
    pen_.reset(cairo_create(surface_.get()));
    if (cairo_status(pen_.get()) != CAIRO_STATUS_SUCCESS)
        throw std::runtime_error("The picture is too large to draw on.");
}

cv::Mat Picture::bgr() const {
    cairo_surface_flush(surface_.get());
    cv::Mat out;
    cv::cvtColor(pixels_, out, cv::COLOR_BGRA2BGR);
    return out;
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/card_words.h"

#include <fmt/format.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <memory>

namespace swarfbook::carddrawing {
namespace {

constexpr double millimetresPerPoint = 25.4 / 72.0;

struct Unref {
    void operator()(PangoLayout* layout) const { g_object_unref(layout); }
};
struct FreeFont {
    void operator()(PangoFontDescription* font) const { pango_font_description_free(font); }
};
struct FreeOptions {
    void operator()(cairo_font_options_t* options) const { cairo_font_options_destroy(options); }
};
struct FreeText {
    void operator()(char* text) const { g_free(text); }
};

struct Words {
    std::string markup;
    double x = 0.0, y = 0.0; ///< top-left, mm
    double widthMm = 0.0;    ///< lines break here; 0: one line
    double points = 10.0;
};

std::string escaped(const std::string& text) {
    const std::unique_ptr<char, FreeText> safe(
        g_markup_escape_text(text.c_str(), static_cast<gssize>(text.size())));
    return safe.get();
}

/// Draws the words and returns their height, mm. Letters are laid out in points, unhinted, so that
/// they are where they belong at every resolution.
double drawWords(cairo_t* pen, const Words& words) {
    cairo_save(pen);
    cairo_translate(pen, words.x, words.y);
    cairo_scale(pen, millimetresPerPoint, millimetresPerPoint);
    const std::unique_ptr<PangoLayout, Unref> layout(pango_cairo_create_layout(pen));
    const std::unique_ptr<cairo_font_options_t, FreeOptions> options(cairo_font_options_create());
    cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
    PangoContext* context = pango_layout_get_context(layout.get());
    pango_cairo_context_set_font_options(context, options.get());
    pango_cairo_context_set_resolution(context, 72.0);
    pango_context_set_round_glyph_positions(context, FALSE);

    const std::unique_ptr<PangoFontDescription, FreeFont> font(
        pango_font_description_from_string("DejaVu Sans, Sans"));
    pango_font_description_set_absolute_size(font.get(), words.points * PANGO_SCALE);
    pango_layout_set_font_description(layout.get(), font.get());
    if (words.widthMm > 0.0)
        pango_layout_set_width(layout.get(),
                               static_cast<int>(words.widthMm / millimetresPerPoint * PANGO_SCALE));
    pango_layout_set_markup(layout.get(), words.markup.c_str(), -1);
    pango_cairo_update_layout(pen, layout.get());
    pango_cairo_show_layout(pen, layout.get());
    PangoRectangle room;
    pango_layout_get_extents(layout.get(), nullptr, &room);
    cairo_restore(pen);
    return room.height * millimetresPerPoint / PANGO_SCALE;
}

std::string cutStep(bool cutWindow) {
    if (cutWindow)
        return "<b>Cut</b> the window out along its line with a sharp blade and a steel rule, then "
               "cut along the card's outer line. It is now a frame.";
    return "<b>Cut</b> along the card's outer line. Leave the window whole: it is the white card "
           "that debris or a magnet lies on.";
}

std::string layStep(bool cutWindow) {
    if (cutWindow)
        return "<b>Lay</b> the frame flat round the sample, printed side up: on the pan's floor, "
               "on opened filter media or in the wash tray. Only what lies inside the window is "
               "counted.";
    return "<b>Lay</b> the card flat, printed side up. Spread the debris on the window so that "
           "pieces do not touch, or lay the magnet in its middle.";
}

std::vector<std::string> steps(const CardSheet& sheet) {
    const std::string serial = escaped(sheet.serial);
    const double bar = sheet.layout.checkBarLength();
    const double exampleReading = 0.995 * bar;
    return {
        "<b>Print</b> in black at 100 % (\"actual size\", \"no scaling\"), not \"fit to page\". "
        "Plain matt white paper, the heavier the better; not glossy and not laminated, because "
        "shine hides debris.",
        fmt::format("<b>Measure</b> the bar along the card's lower edge with callipers, from the "
                    "middle of one end stroke to the middle of the other. It is drawn {:.1f} mm "
                    "long. Enter your reading once for this printed card; {:.1f} stands for "
                    "it:\n<tt>swarfbook card --serial {} --measured-bar {:.1f}</tt>",
                    bar, exampleReading, serial, exampleReading),
        cutStep(sheet.cutWindow),
        layStep(sheet.cutWindow) + " Keep the black marks clean and uncovered; print a new card "
                                   "when this one is soiled.",
        "<b>Photograph</b> from straight above in even light: the whole card in the picture and "
        "filling it, in focus, no lamp mirrored in it, no shadow of hand or phone across it. Then, "
        "naming the place photographed:\n<tt>swarfbook measure PHOTO --place " +
            std::string(sheet.cutWindow ? "pan" : "white-card") + "</tt>",
    };
}

constexpr const char* caution =
    "<b>Caution.</b> Cut away from your hand. Used fluid and metal debris can harm skin and eyes: "
    "wear gloves and eye protection, and follow the fluid's safety data sheet and local rules.";

} // namespace

double lowestRowTop(const CardLayout& layout) {
    return lowestRowBottom(layout) - layout.markerSize;
}

double lowestRowBottom(const CardLayout& layout) {
    double lowest = 0.0;
    for (const auto& [id, centre] : layout.markers)
        lowest = std::max(lowest, centre.y);
    return lowest + layout.markerSize / 2.0;
}

double drawHeading(cairo_t* pen, const CardSheet& sheet) {
    const double width = sheetSize(sheet.paper).width.value();
    const double left = sideMargin + 10.0;
    const double textWidth = width - 2.0 * left;
    double y = endMargin + 1.0;
    y += drawWords(pen, {fmt::format("<b>swarfbook reference card {}</b>  ·  {} layout  ·  {}",
                                     escaped(sheet.serial), escaped(sheet.layout.name),
                                     sheet.cutWindow ? "frame" : "white card"),
                         left, y, textWidth, 13.0});
    y += 1.0;
    y += drawWords(pen, {"Print this page at 100 % (\"actual size\"). Never \"fit to page\".", left,
                         y, textWidth, 10.5});
    return y;
}

double drawSteps(cairo_t* pen, const CardSheet& sheet, double top) {
    const double width = sheetSize(sheet.paper).width.value();
    const double left = sideMargin + 10.0;
    const double indent = 6.0;
    double y = top;
    int number = 1;
    for (const std::string& step : steps(sheet)) {
        drawWords(pen, {fmt::format("<b>{}</b>", number++), left, y, 0.0, 9.5});
        y += drawWords(pen, {step, left + indent, y, width - 2.0 * left - indent, 9.5}) + 1.6;
    }
    return y + drawWords(pen, {caution, left, y + 0.8, width - 2.0 * left, 9.5}) + 0.8;
}

void drawMarginLine(cairo_t* pen, const CardSheet& sheet) {
    const CardLayout& layout = sheet.layout;
    const double windowBottom = layout.window.y + layout.window.height;
    const double room = lowestRowTop(layout) - quietZone(layout.markerSize) - windowBottom;
    constexpr double points = 5.0;
    constexpr double letterTop = 0.20; // of the em: from the line box's top to the capitals' tops
    constexpr double letterHeight = 0.95; // of the em: capitals with the tails below the line
    const double em = points * millimetresPerPoint;
    const double y = windowBottom + (room - letterHeight * em) / 2.0 - letterTop * em;
    drawWords(pen,
              {fmt::format("<b>{}</b>  ·  {}  ·  print at 100 %  ·  bar {:.0f} mm",
                           escaped(sheet.serial), escaped(layout.name), layout.checkBarLength()),
               layout.window.x + 1.0, y, 0.0, points});
}

} // namespace swarfbook::carddrawing

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/pieces_drawing.h"

#include "report/magnet_words.h"
#include "report/report_words.h"
#include "report/scale_bar.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {

namespace {

constexpr double leadThickness = 0.7; // mm; ISO 9177-1, a common propelling pencil
constexpr double leadLength = 4.0;    // mm, as drawn; less if that is over a fifth of the width

bool hasCrops(const std::vector<ReportedPiece>& pieces) {
    return std::none_of(pieces.begin(), pieces.end(),
                        [](const ReportedPiece& piece) { return piece.crop.empty(); });
}

bool ofOneType(const ReportedPieces& pieces) {
    return pieces.restedOn;
}

/// "3.26 ± 0.47 mm" or "at least 3.26 mm" in two lines, as a cell is too narrow for one.
std::string captionOf(const ReportedPiece& piece, bool withType) {
    std::string caption = longestSideWords(piece.particle);
    const std::size_t space = caption.find(' ', piece.particle.leastSize ? 3 : 0),
                      unit = caption.rfind(' ');
    if (space != unit)
        caption.replace(unit, 1, "\u00a0").replace(space, 1, "\n");
    if (const std::size_t sign = caption.find("\u00b1 "); sign != std::string::npos)
        caption.replace(sign, 3, "\u00b1\u00a0");
    if (withType)
        caption += fmt::format("\n{}{}", typeWord(piece.particle.type),
                               piece.inCoat ? " in the fuzz" : "");
    return caption;
}

/// Draws from the top down and keeps its position.
class Rows {
  public:
    /// @param one  millimetre, as drawn
    Rows(const PiecesCanvas& canvas, double cell, double one)
        : c_(canvas), cell_(cell), one_(one), y_(canvas.at.y) {}

    void text(const std::string& words, bool bold, double size) {
        if (words.empty())
            return;
        const TextStyle style{.size = size, .bold = bold, .width = c_.width};
        y_ += put({c_.at.x, y_}, words, style).height + 0.3 * size;
    }
    void pieces(const std::vector<ReportedPiece>& row, bool withType) {
        const bool drawn = hasCrops(row);
        const double below = drawn ? cell_ + 0.2 * c_.letter : 0.0;
        double captions = 0.0;
        for (std::size_t i = 0; i < row.size(); ++i) {
            const double x = c_.at.x + static_cast<double>(i) * (cell_ + gap());
            if (drawn && !c_.measureOnly)
                c_.picture(row[i].crop, {x, y_}, {cell_, cell_});
            const TextStyle style{
                .size = 0.74 * c_.letter, .align = Align::centre, .width = cell_, .maxLines = 4};
            captions =
                std::max(captions, put({x, y_ + below}, captionOf(row[i], withType), style).height);
        }
        y_ += below + captions + 0.6 * c_.letter;
    }
    /// A bar of 1 mm and a pencil lead.
    void scale() {
        const double one = one_, thick = leadThickness * one;
        const double height = std::max(1.3 * c_.letter, thick), middle = y_ + height / 2.0;
        if (!c_.measureOnly)
            drawScaleBar(c_.pen, {c_.at.x, middle}, Pixels(one), 0.12 * c_.letter);
        const TextStyle style{.size = 0.95 * c_.letter};
        const double top = middle - 0.65 * c_.letter;
        double x = c_.at.x + one + 0.7 * c_.letter;
        x += put({x, top}, "1 mm", style).width + 2.5 * c_.letter;
        if (!c_.measureOnly)
            lead({x, middle}, thick / 2.0);
        x += drawnLead() + 0.7 * c_.letter;
        put({x, top}, "a pencil lead, 0.7 mm thick, at the same scale", style);
        y_ += height + 0.5 * c_.letter;
    }
    [[nodiscard]] double y() const { return y_; }
    [[nodiscard]] double gap() const { return 0.6 * c_.letter; }

  private:
    Extent put(Spot at, const std::string& words, const TextStyle& style) const {
        return c_.measureOnly ? textExtent(c_.pen, words, style)
                              : drawText(c_.pen, at, words, style);
    }
    [[nodiscard]] double drawnLead() const { return std::min(leadLength * one_, 0.2 * c_.width); }
    /// A dark bar with a blunt point, `half` of its thickness.
    void lead(Spot leftMiddle, double half) const {
        const double length = drawnLead();
        setInk(c_.pen, grey(0.3));
        cairo_new_path(c_.pen);
        cairo_move_to(c_.pen, leftMiddle.x, leftMiddle.y - half);
        cairo_line_to(c_.pen, leftMiddle.x + length - 1.5 * half, leftMiddle.y - half);
        cairo_line_to(c_.pen, leftMiddle.x + length, leftMiddle.y);
        cairo_line_to(c_.pen, leftMiddle.x + length - 1.5 * half, leftMiddle.y + half);
        cairo_line_to(c_.pen, leftMiddle.x, leftMiddle.y + half);
        cairo_close_path(c_.pen);
        cairo_fill(c_.pen);
    }

    const PiecesCanvas& c_;
    double cell_, one_;
    double y_;
};

/// What the ring means, and which pieces are counted.
std::string belowPieces(const ReportedPieces& pieces) {
    const std::string ring =
        hasCrops(pieces.now) ? "Each ring marks one piece; the rest is other debris." : "";
    return ring + (ring.empty() || pieces.counted.empty() ? "" : " ") + pieces.counted;
}

} // namespace

std::string nowTitle(const ReportedPieces& pieces) {
    const std::size_t shown = pieces.now.size();
    std::string title = fmt::format("Now: {} piece{}", pieces.count, pieces.count == 1 ? "" : "s");
    if (pieces.count > shown)
        title += fmt::format("; the {} largest are shown", shown);
    return title;
}

std::string beforeTitle(const ReportedPieces& pieces) {
    if (pieces.beforeDate.empty())
        return "";
    std::string title = fmt::format("Last visit, {}: ", dateWords(pieces.beforeDate));
    if (!pieces.restedOn)
        return title + (pieces.before.empty() ? "no piece beyond doubt" : "the largest pieces");
    if (pieces.before.empty())
        return title + "none of this type";
    const std::size_t alike = pieces.countBefore;
    title += alike == 0 ? fmt::format("none surely so large; these were the largest of {}",
                                      typeWord(pieces.before.front().particle.type))
                        : fmt::format("{} of this size or larger", alike);
    return title + (alike > 0 && pieces.before.size() > alike ? ", and the next largest" : "");
}

double drawPieces(const PiecesCanvas& canvas, const ReportedPieces& pieces) {
    if (pieces.now.empty())
        return 0.0;
    const std::size_t across = std::max({std::size_t{7}, pieces.now.size(), pieces.before.size()});
    const double gaps = 0.6 * canvas.letter * static_cast<double>(across - 1);
    const double cell = (canvas.width - gaps) / static_cast<double>(across);
    Rows rows(canvas, cell, cell / pieces.field.value());
    if (!pieces.restedOn) // otherwise the first reason says it
        rows.text(pieces.sentence, false, canvas.letter);
    rows.text(nowTitle(pieces), true, canvas.letter);
    rows.pieces(pieces.now, !ofOneType(pieces));
    rows.text(beforeTitle(pieces), true, canvas.letter);
    if (!pieces.before.empty())
        rows.pieces(pieces.before, !ofOneType(pieces));
    if (hasCrops(pieces.now))
        rows.scale();
    rows.text(belowPieces(pieces), false, 0.85 * canvas.letter);
    return rows.y() - canvas.at.y;
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/flush_chart.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

/// Where a bar stands.
struct BarPlace {
    double left = 0.0, width = 0.0, floor = 0.0, height = 0.0; ///< the height of this bar
};

constexpr double widestBar = 60.0;   // points
constexpr double wordsBelow = 3.4;   // of the letter size: three lines
constexpr double wordsAbove = 3.2;   // of the letter size: the title and the count
constexpr double shareOfPlace = 0.6; // of its place that a bar is wide

void drawPassBar(cairo_t* pen, const BarPlace& at, double letter, const PassCount& pass) {
    setInk(pen, grey(0.45));
    cairo_rectangle(pen, at.left, at.floor - at.height, at.width, at.height);
    cairo_fill(pen);
    const double room = at.width + 4.0 * letter;
    drawText(pen, {at.left - 2.0 * letter, at.floor - at.height - 1.5 * letter},
             fmt::format("{}", pass.pieces),
             {.size = letter, .bold = true, .align = Align::centre, .width = room});
}

std::string passLabel(const FlushSeries& series, std::size_t i) {
    const PassCount& pass = series.passes[i];
    std::string label = fmt::format("{}: {}", i + 1, flushStepName(pass.step));
    if (!pass.counted)
        return label + "\nnot counted";
    if (const auto& ratio = series.decay.ratios[i])
        label += fmt::format("\n{:.0f} % of all so far", 100.0 * ratio->ratio);
    return label;
}

} // namespace

void drawFlushChart(cairo_t* pen, const ChartRoom& chart, const FlushSeries& series) {
    if (series.passes.empty())
        return;
    const auto [topLeft, room, letter] = chart;
    int most = 1;
    for (const PassCount& pass : series.passes)
        most = std::max(most, pass.pieces);
    const double floor = topLeft.y + room.height - wordsBelow * letter;
    const double highest = room.height - (wordsBelow + wordsAbove) * letter;
    const double place =
        room.width /
        static_cast<double>(std::max<std::size_t>(series.passes.size(), 3)); // few passes stay slim
    cairo_save(pen);
    drawText(pen, topLeft, "Pieces that each pass washed out", {.size = letter});
    for (std::size_t i = 0; i < series.passes.size(); ++i) {
        const double left = topLeft.x + static_cast<double>(i) * place;
        const double width = std::min(widestBar, shareOfPlace * place);
        const PassCount& pass = series.passes[i];
        if (pass.counted)
            drawPassBar(pen,
                        {left + 0.5 * (place - width), width, floor, highest * pass.pieces / most},
                        letter, pass);
        drawText(pen, {left, floor + 0.3 * letter}, passLabel(series, i),
                 {.size = 0.9 * letter, .align = Align::centre, .width = place});
    }
    setInk(pen, black);
    cairo_set_line_width(pen, 0.08 * letter);
    cairo_move_to(pen, topLeft.x, floor);
    cairo_line_to(pen, topLeft.x + room.width, floor);
    cairo_stroke(pen);
    cairo_restore(pen);
}

} // namespace swarfbook

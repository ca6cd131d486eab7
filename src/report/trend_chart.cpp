// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/trend_chart.h"

#include "report/report_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace swarfbook {

namespace {

/// Where the plot lies and how values become places in it.
struct Plot {
    Spot topLeft;
    Extent room;
    double letter = 0.0; ///< their size
    double xLow = 0.0, xHigh = 1.0, yHigh = 100.0;
    bool byOdometer = true;

    [[nodiscard]] double bottom() const { return topLeft.y + room.height; }
    [[nodiscard]] double xOf(double x) const {
        return topLeft.x + room.width * (x - xLow) / (xHigh - xLow);
    }
    [[nodiscard]] double yOf(double y) const { return bottom() - room.height * y / yHigh; }
};

double positionOf(const Plot& plot, const ReportedTrendPoint& point, std::size_t index) {
    return plot.byOdometer ? point.odometerKm.value() : static_cast<double>(index);
}

void setRange(Plot& plot, const std::vector<ReportedTrendPoint>& points) {
    plot.byOdometer = std::all_of(points.begin(), points.end(), [](const ReportedTrendPoint& p) {
        return p.odometerKm.has_value();
    });
    double low = positionOf(plot, points.front(), 0), high = low, top = 10.0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const double x = positionOf(plot, points[i], i);
        low = std::min(low, x);
        high = std::max(high, x);
        if (const auto* score = std::get_if<WearScore>(&points[i].score))
            top = std::max(top, score->high);
    }
    const double air = high > low ? 0.1 * (high - low) : 1.0;
    plot.xLow = low - air;
    plot.xHigh = high + air;
    plot.yHigh = std::clamp(20.0 * std::ceil(1.05 * top / 20.0), 20.0, 100.0);
}

struct Line {
    Spot from, to;
};
void stroke(cairo_t* pen, const Line& line, double thickness, Ink ink) {
    setInk(pen, ink);
    cairo_set_line_width(pen, thickness);
    cairo_move_to(pen, line.from.x, line.from.y);
    cairo_line_to(pen, line.to.x, line.to.y);
    cairo_stroke(pen);
}

void drawAxes(cairo_t* pen, const Plot& plot) {
    const double letter = plot.letter;
    const double right = plot.topLeft.x + plot.room.width;
    double step = plot.yHigh > 60.0 ? 20.0 : 10.0;
    while (step < plot.yHigh && plot.room.height * step / plot.yHigh < 1.5 * letter)
        step *= 2.0; // in a small chart the numbers would lie over each other
    for (double value = 0.0; value <= plot.yHigh; value += step) {
        const double y = plot.yOf(value);
        stroke(pen, {{plot.topLeft.x, y}, {right, y}}, 0.04 * letter, grey(value > 0 ? 0.75 : 0.0));
        const TextStyle style{.size = letter, .align = Align::right, .width = 3.0 * letter};
        drawText(pen, {plot.topLeft.x - 3.5 * letter, y - 0.6 * letter},
                 fmt::format("{:.0f}", value), style);
    }
}

void drawPoint(cairo_t* pen, const Plot& plot, double x, const WearScore& score) {
    const double letter = plot.letter;
    const double low = plot.yOf(score.low), high = plot.yOf(std::min(score.high, plot.yHigh));
    const double thick = 0.12 * letter, cap = 0.45 * letter;
    stroke(pen, {{x, low}, {x, high}}, thick, black);
    stroke(pen, {{x - cap, low}, {x + cap, low}}, thick, black);
    stroke(pen, {{x - cap, high}, {x + cap, high}}, thick, black);
    cairo_arc(pen, x, plot.yOf(score.value), 0.38 * letter, 0.0, 6.2832);
    setInk(pen, black);
    cairo_fill(pen);
    constexpr double width = 3.0; // of the letter size, for "100"
    drawText(pen, {x - 0.5 * width * letter, high - 1.5 * letter},
             fmt::format("{:.0f}", score.value),
             {.size = letter, .bold = true, .align = Align::centre, .width = width * letter});
}

constexpr double labelWidth = 7.0; // of the letter size: "14 f\u00e9vr. 2025" and a gap

/// Middles of the labels in one row: each below its point, or beside it as far as its neighbours
/// make it. Empty where one row has no room for all.
std::vector<double> middlesInOneRow(const Plot& plot,
                                    const std::vector<ReportedTrendPoint>& points) {
    const double letter = plot.letter;
    const double width = labelWidth * letter;
    // beyond the axes there is room for a half label where the numbers stand, and a little to the
    // right
    const double first = plot.topLeft.x - 1.0 * letter;
    const double last = plot.topLeft.x + plot.room.width + 2.0 * letter - 0.5 * width;
    std::vector<double> middles;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const double under = plot.xOf(positionOf(plot, points[i], i));
        middles.push_back(middles.empty() ? std::max(under, first)
                                          : std::max(under, middles.back() + width));
    }
    double most = last;
    for (std::size_t i = middles.size(); i-- > 0;) {
        middles[i] = std::min(middles[i], most);
        most = middles[i] - width;
    }
    const bool fits = !middles.empty() && middles.front() >= first;
    return fits ? middles : std::vector<double>();
}

std::string labelOf(const ReportedTrendPoint& point) {
    std::string text = dateWords(point.date);
    if (point.odometerKm)
        text += "\n" + distanceWords(*point.odometerKm);
    if (std::holds_alternative<NoWearScore>(point.score))
        text += "\nno score";
    return text;
}

/// Where a label stands: below the axis at `middle`, `row` rows down, for the point above `point`.
struct LabelPlace {
    double point = 0.0, middle = 0.0;
    int row = 0;
};

void drawLabel(cairo_t* pen, const Plot& plot, const ReportedTrendPoint& point,
               const LabelPlace& at) {
    const double letter = plot.letter;
    const TextStyle style{
        .size = 0.9 * letter, .align = Align::centre, .width = labelWidth * letter};
    stroke(pen, {{at.point, plot.bottom()}, {at.middle, plot.bottom() + 0.6 * letter}},
           0.08 * letter, black);
    drawText(pen,
             {at.middle - 0.5 * labelWidth * letter, plot.bottom() + (0.7 + 3.6 * at.row) * letter},
             labelOf(point), style);
}

/// Labels below the axis, in one row where that has room for all; else neighbours that are too near
/// step down a row.
void drawLabels(cairo_t* pen, const Plot& plot, const std::vector<ReportedTrendPoint>& points) {
    const std::vector<double> middles = middlesInOneRow(plot, points);
    const double width = labelWidth * plot.letter;
    double endOfRow[2] = {-1e9, -1e9};
    for (std::size_t i = 0; i < points.size(); ++i) {
        const double x = plot.xOf(positionOf(plot, points[i], i));
        if (!middles.empty()) {
            drawLabel(pen, plot, points[i], {x, middles[i], 0});
            continue;
        }
        const double leftEnd = x - 0.5 * width;
        const int row = leftEnd >= endOfRow[0] ? 0 : 1;
        if (row == 1 && leftEnd < endOfRow[1])
            continue; // no room: the table beside the chart lists every visit
        endOfRow[row] = leftEnd + width;
        drawLabel(pen, plot, points[i], {x, x, row});
    }
}

} // namespace

long scoredVisits(const std::vector<ReportedTrendPoint>& points) {
    return std::count_if(points.begin(), points.end(), [](const ReportedTrendPoint& point) {
        return std::holds_alternative<WearScore>(point.score);
    });
}

void drawTrendChart(cairo_t* pen, const ChartRoom& chart,
                    const std::vector<ReportedTrendPoint>& points) {
    if (points.empty())
        return;
    const auto [topLeft, room, letter] = chart;
    Plot plot;
    plot.letter = letter;
    plot.topLeft = {topLeft.x + 4.5 * letter, topLeft.y + 2.9 * letter};
    plot.room = {room.width - 6.5 * letter, room.height - 10.9 * letter};
    setRange(plot, points);
    if (!middlesInOneRow(plot, points).empty())
        plot.room.height += 3.6 * letter;
    cairo_save(pen);
    drawText(pen, topLeft,
             "Wear score of the debris, 0 to 100: higher means more wear (bars: 95 %)",
             {.size = letter, .width = room.width});
    drawAxes(pen, plot);
    const WearScore* before = nullptr;
    double xBefore = 0.0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const auto* score = std::get_if<WearScore>(&points[i].score);
        if (score == nullptr)
            continue;
        const double x = plot.xOf(positionOf(plot, points[i], i));
        if (before != nullptr && !before->atLeast && !score->atLeast)
            stroke(pen, {{xBefore, plot.yOf(before->value)}, {x, plot.yOf(score->value)}},
                   0.06 * letter, grey(0.5));
        before = score;
        xBefore = x;
    }
    for (std::size_t i = 0; i < points.size(); ++i)
        if (const auto* score = std::get_if<WearScore>(&points[i].score))
            drawPoint(pen, plot, plot.xOf(positionOf(plot, points[i], i)), *score);
    drawLabels(pen, plot, points);
    cairo_restore(pen);
}

} // namespace swarfbook

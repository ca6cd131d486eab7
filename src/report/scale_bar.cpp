// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/scale_bar.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace swarfbook {

namespace {

/// Largest departure, in percent, of the horizontal scale in the window from that at its centre.
double worstDeparture(const PhotoView& view, const CardRect& window, double atCentre) {
    double worst = 0.0;
    for (int i = 0; i <= 4; ++i)
        for (int j = 0; j <= 4; ++j) {
            const PointOnCard p{window.x + window.width * i / 4.0,
                                window.y + window.height * j / 4.0};
            worst = std::max(worst, std::abs(view.horizontalScaleAt(p).value() / atCentre - 1.0));
        }
    return 100.0 * worst;
}

} // namespace

Millimetres roundLength(Millimetres most) {
    const double decade = std::pow(10.0, std::floor(std::log10(most.value())));
    for (const double step : {5.0, 2.0})
        if (step * decade <= most.value())
            return Millimetres(step * decade);
    return Millimetres(decade);
}

std::string barWords(Millimetres length) {
    return fmt::format("{:g} mm", length.value());
}

ScaleBar scaleBarFor(const PhotoView& view, const CardRect& window) {
    const PointOnCard centre{window.x + window.width / 2.0, window.y + window.height / 2.0};
    const PixelsPerMillimetre scale = view.horizontalScaleAt(centre);
    const Millimetres length = roundLength(Pixels(view.picture().cols / 4.0) / scale);
    ScaleBar bar{length, length * scale, {}};
    if (view.isStraightened()) {
        bar.where = "on the card";
    } else {
        const double departure = worstDeparture(view, window, scale.value());
        bar.where = fmt::format("left to right in the window's middle; up to {:.0f} % out "
                                "elsewhere (photo tilted)",
                                std::max(1.0, std::ceil(departure)));
    }
    return bar;
}

void drawScaleBar(cairo_t* pen, Spot at, Pixels drawn, double lineWidth) {
    const double tick = 3.0 * lineWidth, half = lineWidth / 2.0;
    cairo_save(pen);
    setInk(pen, black);
    cairo_set_line_width(pen, lineWidth);
    cairo_set_line_cap(pen, CAIRO_LINE_CAP_BUTT);
    cairo_move_to(pen, at.x, at.y);
    cairo_line_to(pen, at.x + drawn.value(), at.y);
    // The length ends at the ticks' outer sides.
    for (const double x : {at.x + half, at.x + drawn.value() - half}) {
        cairo_move_to(pen, x, at.y - tick);
        cairo_line_to(pen, x, at.y + tick);
    }
    cairo_stroke(pen);
    cairo_restore(pen);
}

} // namespace swarfbook

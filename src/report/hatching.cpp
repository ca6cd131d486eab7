// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/hatching.h"

namespace swarfbook {

namespace {

void diagonals(cairo_t* pen, const double (&box)[4], double spacing, double shift) {
    const double height = box[3] - box[1];
    for (double x = box[0] - height + shift; x < box[2]; x += spacing) {
        cairo_move_to(pen, x, box[3]);
        cairo_line_to(pen, x + height, box[1]);
    }
}

} // namespace

void tracePolygon(cairo_t* pen, const std::vector<Spot>& polygon) {
    cairo_new_sub_path(pen);
    for (const Spot& spot : polygon)
        cairo_line_to(pen, spot.x, spot.y);
    cairo_close_path(pen);
}

void hatch(cairo_t* pen, const std::vector<Spot>& polygon, double em) {
    if (polygon.size() < 3)
        return;
    cairo_save(pen);
    tracePolygon(pen, polygon);
    double box[4];
    cairo_path_extents(pen, &box[0], &box[1], &box[2], &box[3]);
    cairo_clip_preserve(pen);
    cairo_new_path(pen);
    cairo_set_line_width(pen, 0.11 * em);
    diagonals(pen, box, 0.9 * em, 0.0);
    setInk(pen, {0.0, 0.0, 0.0, 0.8});
    cairo_stroke(pen);
    diagonals(pen, box, 0.9 * em, 0.13 * em);
    setInk(pen, {1.0, 1.0, 1.0, 0.8});
    cairo_stroke(pen);
    cairo_restore(pen);

    cairo_save(pen);
    const double dashes[2] = {0.5 * em, 0.5 * em};
    cairo_set_line_width(pen, 0.14 * em);
    tracePolygon(pen, polygon);
    setInk(pen, white);
    cairo_stroke_preserve(pen);
    cairo_set_dash(pen, dashes, 2, 0.0);
    setInk(pen, black);
    cairo_stroke(pen);
    cairo_restore(pen);
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/type_marks.h"

#include <array>

namespace swarfbook {

namespace {

constexpr Ink lightCasing{1.0, 1.0, 1.0, 0.85};
constexpr Ink darkCasing{0.0, 0.0, 0.0, 0.85};
constexpr double casingWidth = 2.2; // of the core

std::vector<double> scaled(std::vector<double> rhythm, double by) {
    for (double& length : rhythm)
        length *= by;
    return rhythm;
}

} // namespace

const OutlineMark& markOf(ParticleType type) {
    static const std::array<OutlineMark, particleTypeCount> marks{{
        {"B", "bright metal", {0.02, 0.13, 0.42, 1.0}, lightCasing, {}},
        {"Y", "yellow metal", {1.0, 0.88, 0.25, 1.0}, darkCasing, {9.0, 3.0}},
        {"L", "lining", {0.55, 0.05, 0.02, 1.0}, lightCasing, {0.0, 2.6}},
        {"P", "plastic", {0.45, 0.96, 0.85, 1.0}, darkCasing, {6.0, 2.6, 0.5, 2.6, 0.5, 2.6}},
        {"F", "fibre", {0.38, 0.0, 0.50, 1.0}, lightCasing, {2.5, 3.5}},
        {"?", "unidentified", {0.97, 0.97, 0.97, 1.0}, darkCasing, {}},
    }};
    return marks.at(static_cast<std::size_t>(type));
}

const OutlineMark& sliverMark() {
    static const OutlineMark mark{
        "S", "sliver in the coat", {1.0, 0.78, 0.72, 1.0}, darkCasing, {1.5, 2.5}};
    return mark;
}

const OutlineMark& magnetRimMark() {
    static const OutlineMark mark{
        "", "magnet's own outline", white, {0.0, 0.0, 0.0, 0.9}, {9.0, 5.0}};
    return mark;
}

void strokeMark(cairo_t* pen, const OutlineMark& mark, double lineWidth) {
    cairo_save(pen);
    cairo_set_line_join(pen, CAIRO_LINE_JOIN_ROUND);
    cairo_set_line_cap(pen, CAIRO_LINE_CAP_ROUND);
    cairo_set_dash(pen, nullptr, 0, 0.0);
    setInk(pen, mark.casing);
    cairo_set_line_width(pen, lineWidth * casingWidth);
    cairo_stroke_preserve(pen);
    const std::vector<double> dashes = scaled(mark.rhythm, lineWidth);
    cairo_set_dash(pen, dashes.data(), static_cast<int>(dashes.size()), 0.0);
    setInk(pen, mark.core);
    // A dot is a dash of no length with a round end: a little wider, to be seen.
    const bool dotted = mark.rhythm.size() == 2 && mark.rhythm[0] == 0.0;
    cairo_set_line_width(pen, lineWidth * (dotted ? 1.35 : 1.0));
    cairo_stroke(pen);
    cairo_restore(pen);
}

} // namespace swarfbook

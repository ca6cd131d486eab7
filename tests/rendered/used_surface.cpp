// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "rendered/used_surface.h"

#include <cmath>
#include <random>

namespace swarfbook::test {
namespace {

constexpr double steel = 0.30; // linear light

Piece mark(PointOnCard at, double length, double width, double light) {
    return {at, length, width, 0.0, {light, light, light}};
}

/// A stamped ring: a dark disc, the steel inside it bare again.
void addRing(std::vector<Piece>& pieces, PointOnCard at, double diameter) {
    pieces.push_back(mark(at, diameter, 0.0, 0.45 * steel));
    pieces.push_back(mark(at, diameter - 0.8, 0.0, steel));
}

} // namespace

std::vector<Piece> underCard(std::vector<Piece> pieces, const CardLayout& layout,
                             const CardLaid& laid) {
    const PointOnCard m{layout.outer.width / 2.0, layout.outer.height / 2.0};
    const double c = std::cos(laid.turn * CV_PI / 180.0), s = std::sin(laid.turn * CV_PI / 180.0);
    for (Piece& p : pieces) {
        const double x = p.centre.x - m.x, y = p.centre.y - m.y;
        p.centre = {m.x + laid.shift.x + c * x - s * y, m.y + laid.shift.y + s * x + c * y};
        p.turn += laid.turn;
    }
    return pieces;
}

std::vector<Piece> usedSurface(const CardLayout& layout, int scratches, unsigned seed,
                               const CardLaid& laid) {
    const CardRect& w = layout.window;
    std::mt19937 random(seed);
    const auto between = [&](double low, double high) {
        return low + (high - low) * (static_cast<double>(random()) / 4294967296.0);
    };
    const auto place = [&] {
        const double x = between(w.x - 8.0, w.x + w.width + 8.0);
        return PointOnCard{x, between(w.y - 8.0, w.y + w.height + 8.0)};
    };
    std::vector<Piece> pieces;
    // Each number is drawn in a statement of its own: a call's arguments may be worked out in any
    // order, and another compiler's order would give another surface.
    for (int i = 0; i < 250; ++i) { // rolled grain: faint streaks
        const double light = steel * between(0.9, 1.1);
        const double width = between(0.2, 0.6);
        const double length = between(2.0, 9.0);
        pieces.push_back(mark(place(), length, width, light));
    }
    for (int i = 0; i < 6; ++i) { // dried oil
        const PointOnCard at = place();
        const double diameter = between(1.5, 4.0);
        pieces.push_back(mark(at, diameter, 0.0, 0.72 * steel));
        pieces.push_back(mark(at, diameter - 0.3, 0.0, 0.85 * steel));
    }
    for (int i = 0; i < 5; ++i) {
        const double diameter = between(3.0, 5.0);
        addRing(pieces, place(), diameter);
    }
    for (int i = 0; i < 8; ++i) { // stamped bars, punch marks
        const double width = between(0.4, 0.7);
        const double length = between(0.8, 2.5);
        Piece bar = mark(place(), length, width, 0.4 * steel);
        bar.turn = between(0.0, 180.0);
        pieces.push_back(bar);
    }
    for (int i = 0; i < scratches; ++i) {
        const double width = between(0.10, 0.25);
        const double length = between(1.0, 14.0);
        Piece scratch = mark(place(), length, width, steel * (i % 2 == 0 ? 0.4 : 1.9));
        scratch.turn = between(0.0, 180.0);
        pieces.push_back(scratch);
    }
    pieces = underCard(std::move(pieces), layout, laid);
    pieces.insert(pieces.begin(), mark({w.x + w.width / 2.0, w.y + w.height / 2.0}, w.width + 2.0,
                                       w.height + 2.0, steel));
    return pieces;
}

} // namespace swarfbook::test

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

/// Marks of use in a steel surface, drawn at random round a card's window. Each number is drawn in
/// a statement of its own: a call's arguments may be worked out in any order, and another
/// compiler's order would give another surface.
class UsedSteel {
  public:
    UsedSteel(const CardRect& window, unsigned seed) : window_(window), random_(seed) {}

    void addRolledGrain() { // faint streaks
        for (int i = 0; i < 250; ++i) {
            const double light = steel * between(0.9, 1.1);
            const double width = between(0.2, 0.6);
            const double length = between(2.0, 9.0);
            marks_.push_back(mark(place(), length, width, light));
        }
    }

    void addDriedOil() {
        for (int i = 0; i < 6; ++i) {
            const PointOnCard at = place();
            const double diameter = between(1.5, 4.0);
            marks_.push_back(mark(at, diameter, 0.0, 0.72 * steel));
            marks_.push_back(mark(at, diameter - 0.3, 0.0, 0.85 * steel));
        }
    }

    void addStampedRings() { // a dark disc, the steel inside it bare again
        for (int i = 0; i < 5; ++i) {
            const double diameter = between(3.0, 5.0);
            const PointOnCard at = place();
            marks_.push_back(mark(at, diameter, 0.0, 0.45 * steel));
            marks_.push_back(mark(at, diameter - 0.8, 0.0, steel));
        }
    }

    void addStampedBars() { // and punch marks
        for (int i = 0; i < 8; ++i) {
            const double width = between(0.4, 0.7);
            const double length = between(0.8, 2.5);
            addTurned(mark(place(), length, width, 0.4 * steel));
        }
    }

    void addScratches(int count) { // dark and bright ones by turns
        for (int i = 0; i < count; ++i) {
            const double width = between(0.10, 0.25);
            const double length = between(1.0, 14.0);
            addTurned(mark(place(), length, width, steel * (i % 2 == 0 ? 0.4 : 1.9)));
        }
    }

    [[nodiscard]] std::vector<Piece> marks() const { return marks_; }

  private:
    double between(double low, double high) {
        return low + (high - low) * (static_cast<double>(random_()) / 4294967296.0);
    }

    PointOnCard place() {
        const double x = between(window_.x - 8.0, window_.x + window_.width + 8.0);
        return {x, between(window_.y - 8.0, window_.y + window_.height + 8.0)};
    }

    void addTurned(Piece piece) {
        piece.turn = between(0.0, 180.0);
        marks_.push_back(piece);
    }

    CardRect window_;
    std::mt19937 random_;
    std::vector<Piece> marks_;
};

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
    UsedSteel surface(w, seed);
    surface.addRolledGrain();
    surface.addDriedOil();
    surface.addStampedRings();
    surface.addStampedBars();
    surface.addScratches(scratches);
    std::vector<Piece> pieces = underCard(surface.marks(), layout, laid);
    pieces.insert(pieces.begin(), mark({w.x + w.width / 2.0, w.y + w.height / 2.0}, w.width + 2.0,
                                       w.height + 2.0, steel));
    return pieces;
}

} // namespace swarfbook::test

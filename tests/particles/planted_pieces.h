// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/card_motion.h"
#include "particles/particle.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <vector>

namespace swarfbook::test {

/// Area and longest side of the polygon, worked out from its corners.
inline void setSizes(Particle& p) {
    double area = 0.0, longest = 0.0;
    for (std::size_t i = 0; i < p.outline.size(); ++i) {
        const PointOnCard a = p.outline[i], b = p.outline[(i + 1) % p.outline.size()];
        area += 0.5 * (a.x * b.y - b.x * a.y);
        for (const PointOnCard& c : p.outline)
            longest = std::max(longest, std::hypot(a.x - c.x, a.y - c.y));
    }
    p.maxFeret = {Millimetres(longest), Millimetres(0.03)};
    p.minFeret = {Millimetres(0.6 * longest), Millimetres(0.03)};
    p.area = {SquareMillimetres(std::abs(area)), SquareMillimetres(0.02)};
}

/// Pieces of irregular outlines, 0.4 to 4 mm long, over a window of 130 x 90 mm. The same seed
/// gives the same pieces.
inline std::vector<Particle> plantedPieces(int count, unsigned seed) {
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> share(0.0, 1.0);
    std::vector<Particle> pieces;
    for (int i = 0; i < count; ++i) {
        Particle p;
        p.id = i + 1;
        p.centre = {35.0 + 120.0 * share(random), 30.0 + 80.0 * share(random)};
        p.type = share(random) < 0.5 ? ParticleType::brightMetal : ParticleType::lining;
        p.typeProbability = 0.9;
        const double radius = 0.2 * std::pow(10.0, share(random));
        for (int k = 0; k < 16; ++k) {
            const double angle = 2.0 * std::numbers::pi * k / 16,
                         r = radius * (0.4 + share(random));
            p.outline.push_back(
                {p.centre.x + r * std::cos(angle), p.centre.y + r * std::sin(angle)});
        }
        setSizes(p);
        pieces.push_back(p);
    }
    return pieces;
}

/// The piece where the card's motion brings it.
inline Particle seenAfter(Particle p, const CardMotion& motion) {
    p.centre = motion.onSecond(p.centre);
    for (PointOnCard& corner : p.outline)
        corner = motion.onSecond(corner);
    return p;
}

/// The piece as it lies elsewhere, turned by an angle in radians, or turned over.
inline Particle laidElsewhere(Particle p, PointOnCard to, double angle, bool over) {
    for (PointOnCard& corner : p.outline) {
        const double x = (corner.x - p.centre.x) * (over ? -1.0 : 1.0), y = corner.y - p.centre.y;
        corner = {to.x + std::cos(angle) * x - std::sin(angle) * y,
                  to.y + std::sin(angle) * x + std::cos(angle) * y};
    }
    p.centre = to;
    return p;
}

/// The pieces as in a second photo: places scatter by 0.05 mm, sizes by 3 %.
inline void seeAgain(std::vector<Particle>& pieces, unsigned seed) {
    std::mt19937 random(seed);
    std::normal_distribution<double> place(0.0, 0.05), size(1.0, 0.03);
    for (Particle& p : pieces) {
        const PointOnCard to{p.centre.x + place(random), p.centre.y + place(random)};
        const double k = size(random);
        for (PointOnCard& corner : p.outline)
            corner = {to.x + k * (corner.x - p.centre.x), to.y + k * (corner.y - p.centre.y)};
        p.centre = to;
        setSizes(p);
    }
}

} // namespace swarfbook::test

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/particle.h"

#include <span>
#include <utility>
#include <vector>

namespace swarfbook {

/// How a card that was laid down again lies: a place of the surface that has the millimetres `p` on
/// the first card has `onSecond(p)` on the second.
struct CardMotion {
    Degrees turn{}; ///< clockwise as seen, about the card's outer top-left corner
    PointOnCard shift;

    [[nodiscard]] PointOnCard onSecond(PointOnCard p) const;
    [[nodiscard]] CardMotion inverse() const;
};

/// The motion that leaves the least squares between places and where they came to; without a turn
/// for one pair, none at all for no pair.
/// Source: the two-dimensional case of Umeyama, IEEE PAMI 13 (1991) 376, without scale.
CardMotion fitCardMotion(std::span<const std::pair<PointOnCard, PointOnCard>> places);

/// How far apart one piece's centres in two photos may be: a quarter of a millimetre, for what
/// stands up is seen elsewhere from elsewhere, and a quarter of the longest side, for outlines
/// differ. Our own experiment with photos of one sample from three sides.
double placeTolerance(const Particle& one, const Particle& other);

/// Whether two finds may be one piece by their sizes: longest sides within a factor of 2, areas
/// within a factor of 3. Ours; the light changes the outline of what shines.
bool sizesAlike(const Particle& one, const Particle& other);

/// The motion under which most pieces of `a` lie where a piece of `b` of like size lies.
struct FoundMotion {
    CardMotion motion;
    int agreeing = 0;      ///< pieces of `a` that lie on one of `b`
    bool byPieces = false; ///< enough agree that chance cannot explain it
};

/// The card as it lies is tried first; where fewer than half of the pieces agree (of the photo with
/// fewer), any shift and any turn is tried by pairs of the thirty largest. A mirrored arrangement
/// agrees with none. Doubtful pieces do not count.
/// Checked: tests/particles/match_pieces_test.cpp (planted motions).
FoundMotion findCardMotion(std::span<const Particle> a, std::span<const Particle> b);

} // namespace swarfbook

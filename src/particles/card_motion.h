// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/particle.h"

#include <span>
#include <utility>
#include <vector>

namespace swarfbook {

/// How a card that was laid down again lies: a place of the surface at `p` (mm on the first card)
/// is at `onSecond(p)` on the second.
struct CardMotion {
    Degrees turn{}; ///< clockwise as seen, about the card's outer top-left corner
    PointOnCard shift;

    [[nodiscard]] PointOnCard onSecond(PointOnCard p) const;
    [[nodiscard]] CardMotion inverse() const;
};

/// The motion with the least sum of squared distances between the moved places and their partners.
/// One pair gives no turn; no pair gives no motion. Source: the two-dimensional case of Umeyama,
/// IEEE PAMI 13 (1991) 376, without scale.
CardMotion fitCardMotion(std::span<const std::pair<PointOnCard, PointOnCard>> places);

/// How far apart one piece's centres in two photos may be: a quarter of a millimetre, because a
/// tall piece appears displaced from another viewpoint, plus a quarter of the longest side, because
/// outlines differ. Our own experiment with photos of one sample from three sides.
double placeTolerance(const Particle& one, const Particle& other);

/// Whether two finds may be one piece by their sizes: longest sides within a factor of 2, areas
/// within a factor of 3. Ours; light changes the outline of a shiny piece.
bool sizesAlike(const Particle& one, const Particle& other);

/// The motion under which most pieces of `a` lie where a piece of `b` of like size lies.
struct FoundMotion {
    CardMotion motion;
    int agreeing = 0;      ///< pieces of `a` that lie on one of `b`
    bool byPieces = false; ///< enough agree that chance cannot explain it
};

/// First tries the card as it lies. If fewer than half of the pieces agree (of the photo with fewer
/// pieces), tries any shift and turn by pairs of the thirty largest. A mirrored arrangement never
/// agrees. Doubtful pieces do not count. Checked: tests/particles/match_pieces_test.cpp (planted
/// motions).
FoundMotion findCardMotion(std::span<const Particle> a, std::span<const Particle> b);

} // namespace swarfbook

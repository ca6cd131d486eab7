// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/card_motion.h"
#include "particles/particle.h"

#include <cstddef>
#include <span>
#include <vector>

namespace swarfbook {

/// One piece in two photos, by its index in each.
struct PiecePair {
    std::size_t a = 0, b = 0;
    bool moved = false; ///< it lies elsewhere in the second photo and was recognised by its outline
};

/// Which pieces of two photos are the same ones.
struct PieceMatches {
    CardMotion motion; ///< of the card between the photos
    bool placeByPieces =
        false; ///< the motion rests on the pieces; else the card is assumed to lie as before
    std::vector<PiecePair> pairs;          ///< by `a`; each piece is in one pair at most
    std::vector<std::size_t> onlyA, onlyB; ///< the others, ascending
};

/// Finds the pieces of one photo again in another photo of the same place, taken from anywhere.
///
/// The motion of the card is found first (findCardMotion). Then pieces are paired by place, size
/// and type, the best pair first. Then a moved piece is recognised by its outline, turned or turned
/// over, but only if no other piece of either photo looks as much like it. Small round pieces are
/// never recognised this way. The order of the pieces does not matter, and (b, a) gives the same
/// pairs as (a, b). Checked: tests/particles/match_pieces_test.cpp (planted moves, losses, gains,
/// turned and mirrored arrangements), tests/blackbox/magnet_sweep_test.cpp (photos with truth).
PieceMatches matchPieces(std::span<const Particle> a, std::span<const Particle> b);

/// How much the outlines of two pieces differ, in any position or turned over: root mean square
/// difference of their radii in the best position, divided by the mean radius. 0 for identical
/// outlines; infinite without an outline.
double outlineDifference(const Particle& one, const Particle& other);

} // namespace swarfbook

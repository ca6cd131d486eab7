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
    bool moved = false; ///< it lies elsewhere in the second photo and was known by its outline
};

/// Which pieces of two photos are the same ones.
struct PieceMatches {
    CardMotion motion; ///< of the card between the photos
    bool placeByPieces =
        false; ///< the motion rests on the pieces; else the card was taken to lie as it did
    std::vector<PiecePair> pairs;          ///< by `a`; each piece is in one pair at most
    std::vector<std::size_t> onlyA, onlyB; ///< the others, ascending
};

/// Finds the pieces of one photo again in another photo of the same place, taken from anywhere.
///
/// The motion of the card is found first (findCardMotion). Then pieces are paired by place, size
/// and type, the best pair first. A piece that is left over on both sides and has moved is known
/// again by its outline, turned or turned over, only where no other piece of either photo looks as
/// much like it; small round ones never are. The order of the pieces does not matter, and (b, a)
/// gives the same pairs as (a, b). Checked: tests/particles/match_pieces_test.cpp (planted moves,
/// losses, gains, turned and mirrored arrangements), tests/blackbox/magnet_sweep_test.cpp (photos
/// with truth).
PieceMatches matchPieces(std::span<const Particle> a, std::span<const Particle> b);

/// How much the outlines of two pieces differ, whichever way each lies or is turned over: the root
/// mean square of the difference of their radii in the best position, over the mean radius. 0 for
/// one and the same; infinite without an outline.
double outlineDifference(const Particle& one, const Particle& other);

} // namespace swarfbook

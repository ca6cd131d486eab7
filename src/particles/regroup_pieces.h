// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/particle.h"

#include <optional>
#include <vector>

namespace swarfbook {

/// Several finds of a photo that a hand says are one piece, such as a chip that a glint or a thread
/// cuts in two. Its outline holds theirs, joined by a line where they come nearest; its longest and
/// shortest side are those of all outlines together (ISO 13322-1, over the convex hull) and no
/// shorter than the longest of the parts, its area is theirs: what is hidden between them is not
/// known. Number and type are those of the largest part. The relative uncertainty of the longest
/// part holds for the whole, as most of it comes from the scale; it is no less than any part's.
/// @param parts  two or more; throws std::logic_error for fewer.
/// Checked: tests/particles/regroup_pieces_test.cpp (closed forms).
Particle joinedPieces(const std::vector<Particle>& parts);

/// How far two pieces are apart, outline from outline (point from point).
Millimetres gapBetween(const Particle& one, const Particle& other);

/// A find that a hand says is two pieces which touch.
struct DividedPiece {
    Particle larger; ///< keeps the number
    Particle smaller;
};

/// Cuts a find in two where it is narrow: by the line between two points of its outline that is
/// shortest for the area which it cuts off, d / A^(5/6), ours: a waist is cut before a whisker and
/// before the middle of the larger piece. Where the one piece ends under the other cannot be seen;
/// it may reach as far beyond the cut as the cut is long, so that an uncertainty of a rectangle of
/// that half width (GUM, 4.3.7) joins each size.
/// @param number  of the smaller one
/// @return nothing for an outline that encloses no area.
/// Checked: tests/particles/regroup_pieces_test.cpp (two discs that touch).
std::optional<DividedPiece> dividedPiece(const Particle& piece, int number);

} // namespace swarfbook

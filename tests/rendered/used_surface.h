// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "rendered/rendered_card.h"

#include <vector>

namespace swarfbook::test {

/// How a card lies on a surface: the place of the surface's own origin on it.
struct CardLaid {
    PointOnCard shift; ///< mm
    double turn = 0.0; ///< degrees, clockwise as seen, about the middle of the card
};

/// The marks of a used metal surface, which are not debris, under a card laid like this: its own
/// grey, grain, `scratches` long thin scratches, stamped rings and bars, stains with a sharp rim.
/// The same seed is the same surface.
std::vector<Piece> usedSurface(const CardLayout& layout, int scratches, unsigned seed,
                               const CardLaid& laid = {});

/// The same pieces under a card laid like this.
std::vector<Piece> underCard(std::vector<Piece> pieces, const CardLayout& layout,
                             const CardLaid& laid);

} // namespace swarfbook::test

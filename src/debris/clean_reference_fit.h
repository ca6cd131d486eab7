// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/surface_texture.h"

#include <string>
#include <variant>

namespace swarfbook {

/// How a photo of the cleaned place lies over the photo that is measured. The card lies some
/// millimetres elsewhere on the surface, so a place of the surface has other coordinates on it.
struct CleanReferenceFit {
    PointOnCard middle;     ///< of the window, true mm: the centre of the turn
    PointOnCard shift;      ///< true mm: where the surface at the middle is on the clean reference
    Degrees turn{};         ///< clockwise as seen
    bool byTexture = false; ///< by the surface's own marks; else by the card alone
    double likeness = 0.0; ///< correlation of both photos where the clean reference shows marks, -1
                           ///< to 1; 0 where it shows none

    /// The same place of the surface on the clean reference, true mm of its own card.
    [[nodiscard]] PointOnCard onCleanReference(PointOnCard p) const;
};

/// Why a clean reference cannot be laid over a photo, and what to do.
struct CleanReferenceMisfit {
    std::string detail, advice;
};

/// Lays a clean reference over a photo. On a white card the card is the surface, so its mapping is
/// used, corrected by half a millimetre at most. Through a cut window the surface's own texture is
/// used: both photos are seen from above, strong contrast is clipped so that debris does not count,
/// every shift up to 10 mm and turn up to 8 degrees is tried by correlation, and the best one is
/// refined.
///
/// A clean reference without any marks needs no fit and lies as its card does.
/// @return a misfit if the marks of the clean reference differ from those of the photo, or if the
/// surface's lightness differs.
/// Source: enhanced correlation coefficient, Evangelidis and Psarakis, IEEE PAMI 30 (2008) 1858.
/// Checked: tests/debris/clean_reference_surface_test.cpp (rendered pairs of known shift and turn).
std::variant<CleanReferenceFit, CleanReferenceMisfit>
fitCleanReference(const SurfacePhoto& measured, const SurfacePhoto& cleanReference,
                  bool onWhiteCard);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/surface_texture.h"

#include <string>
#include <variant>

namespace swarfbook {

/// How a photo of the cleaned place lies over the photo that is measured. The card lies elsewhere
/// on the surface by some millimetres, so a place of the surface has other millimetres on it.
struct CleanReferenceFit {
    PointOnCard middle; ///< of the window, true mm: what is turned about
    PointOnCard
        shift;      ///< true mm: where the middle's place of the surface is on the clean reference
    Degrees turn{}; ///< clockwise as seen
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

/// Lays a clean reference over a photo. On a pad the card is the surface, so its mapping is the
/// answer, put right by half a millimetre at the most. Through a cut window the surface's own
/// texture is: both are seen from above, what stands out is held down so that debris does not
/// count, every shift up to 10 mm and turn up to 8 degrees is tried by correlation, the best one
/// refined.
///
/// A clean reference without any marks needs no fit and lies as its card does.
/// @return a misfit where the marks of the clean reference are not those of the photo, or the
/// surface is
///         another one by its lightness.
/// Source: enhanced correlation coefficient, Evangelidis and Psarakis, IEEE PAMI 30 (2008) 1858.
/// Checked: tests/debris/clean_reference_surface_test.cpp (rendered pairs of known shift and turn).
std::variant<CleanReferenceFit, CleanReferenceMisfit>
fitCleanReference(const SurfacePhoto& measured, const SurfacePhoto& cleanReference,
                  bool onWhiteCard);

} // namespace swarfbook

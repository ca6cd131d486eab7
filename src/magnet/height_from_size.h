// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/top_view.h"
#include "magnet/face_height.h"

#include <optional>

namespace swarfbook {

/// A magnet's diameter or longer side as it appears on the card's plane, mm.
struct RimSeen {
    double size = 0.0;
    double uncertainty = 0.0; ///< standard
};

/// What the true size makes of both.
struct HeightFromSize {
    FaceHeight height;
    RimSeen rim;
};

/// The height at which a magnet of this size appears as wide as it does, weighed with what was
/// known of the height before: a thing nearer to the camera appears larger.
///
/// @param trueSize  mm, as callipers read it, to half a millimetre.
/// @return nullopt if a magnet of this size appears so wide at no height from 1 to 12 mm.
/// Source: similar triangles (CameraPlace::stretch); the weighing is Bayes's rule.
/// Checked: tests/magnet/known_size_test.cpp (pinhole camera by hand, drawn magnets).
std::optional<HeightFromSize> heightFromSize(const CameraPlace& camera, const RimSeen& seen,
                                             double trueSize, const FaceHeight& before);

} // namespace swarfbook

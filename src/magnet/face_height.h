// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/top_view.h"
#include "magnet/outline_shape.h"
#include "magnet/rim.h"
#include "magnet/silhouette.h"

namespace swarfbook {

/// Height of a magnet's face above the card, mm.
struct FaceHeight {
    double value = 5.5;
    double uncertainty = 1.5;
};

/// The prior: pan magnets are 3 to 8 mm thick (common practice, no source).
inline constexpr FaceHeight usualFaceHeight{};

/// A ring's rims as they appear; the outer one's centre is the face's.
struct RingSeen {
    const OutlineShape& outer;
    const InnerRim& inner;
};

/// Estimates the height from a ring's hole: its rim on the face and the foot of its wall are one
/// circle at two heights, so the part of the hole that the wall hides shows the height. Only smooth
/// stretches of the hole's edge count, as fuzz hangs over the others. The usual height is the
/// prior.
/// Checked: tests/magnet/measure_magnet_test.cpp (holes drawn by a pinhole camera).
FaceHeight faceHeightOf(const TopView& view, const Silhouette& silhouette,
                        const CameraPlace& camera, const RingSeen& ring);

} // namespace swarfbook

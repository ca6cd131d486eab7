// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "magnet/coat.h"
#include "magnet/outline_shape.h"
#include "magnet/silhouette.h"

#include <optional>

namespace swarfbook {

/// How far inside the seen rim of the coat the magnet's own rim lies, and by what that is known.
struct RimDepth {
    double depth = 0.0;       ///< mm on the card's plane
    double uncertainty = 1.0; ///< standard, mm
    double bareShare = 0.0;   ///< of the rim where the face itself ends the silhouette, 0 to 1
    bool known = false;       ///< neither bare rim nor combing told: depth is a guess
};

/// The edges of the strands, worked out once for both rims of a ring.
struct CombingScene {
    cv::Mat slopeX, slopeY; ///< CV_32F, of log light
    cv::Mat fuzz;           ///< CV_8U, whose edges are asked
    cv::Mat inside;         ///< CV_8U, well within the silhouette, whose own edge does not count
};
CombingScene combingSceneOf(const TopView& view, const Silhouette& silhouette, const Coat& coat);

/// The magnet with its coat as it appears.
struct CoatSeen {
    const Silhouette& silhouette;
    const Coat& coat;
    const CombingScene& combing;
};

/// Finds the magnet's outer rim under its fuzz. Where the rim is bare the silhouette is the rim.
/// Where fuzz hides it the strands show it: upright on the face, they lean out ever more towards
/// the rim, and beyond it all lie outwards, side by side, until the tips thin out. The rim is where
/// the strands are combed outwards most. Where they are too fine to be seen one by one, it lies
/// between the edge of the fuzz and the bare face where that comes nearest: the middle is taken.
///
/// @param seen  shape fitted to the silhouette's rim, moved to where the face appears; mm.
/// Source: the field of a flat magnet, whose lines leave the face upright and bend over its edge;
///         that the combing peaks at the rim is our own finding on photos with known truth.
/// Checked: tests/magnet/measure_magnet_test.cpp (drawn coats).
RimDepth outerRimDepth(const TopView& view, const CoatSeen& magnet, const OutlineShape& seen);

/// A ring's inner rim as it appears, about the outer one's centre.
struct InnerRim {
    double radius = 0.0;      ///< mm on the card's plane
    double uncertainty = 0.5; ///< standard, mm
};
/// The same for the inner rim. The silhouette must have a hole.
InnerRim innerRim(const TopView& view, const CoatSeen& magnet, const OutlineShape& outer);

} // namespace swarfbook

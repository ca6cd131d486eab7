// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/card_motion.h"
#include "particles/particle.h"

#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// The part of a card that a photo was measured in, true mm.
struct CardWindow {
    PointOnCard topLeft, bottomRight;
};

/// The magnetic share of pieces, 0 to 1, with its 95 % interval.
struct MagneticShare {
    double share = 0.0, low = 0.0, high = 0.0;
};

/// Pieces from the sweep's size limit up that one photo showed before the magnet.
struct SweepTally {
    int gone = 0;                                 ///< with the magnet: magnetic
    int left = 0;                                 ///< found again: not magnetic
    int notKnown = 0;                             ///< it is not known what became of them
    std::optional<MagneticShare> byCount, byArea; ///< not where none is gone or left

    [[nodiscard]] int before() const { return gone + left + notKnown; }
};

struct SweepClass {
    std::string sizeClass;
    Micrometres from, to; ///< `to` is +infinity for the open class
    SweepTally pieces;
};

/// What a magnet took along, by a photo before and a photo after it.
struct MagnetSweep {
    Millimetres judgedFrom;   ///< smaller pieces are not judged
    bool limitByPair = false; ///< the limit comes from both photos' pieces; else their size limits
    bool placeByPieces = false; ///< the pieces that are left show that the place is the same
    CardMotion motion;          ///< of the card between the photos
    int smaller = 0;            ///< pieces before the magnet that are too small to be judged
    int moved = 0;              ///< of those left: found again elsewhere
    int gained = 0;             ///< pieces after it, large enough, that were not seen before
    SweepTally pieces;
    SweepTally bright;               ///< of the type bright metal
    std::vector<SweepClass> classes; ///< those that hold pieces, smallest first
};

/// One of the two photos.
struct SweptPhoto {
    DebrisFinding& debris;
    CardWindow window;
};

/// Judges what a magnet took along and writes `ferrous` into the pieces of both photos.
///
/// A piece that is found again is not magnetic. A piece whose place is empty is magnetic. A piece
/// is not known if it is smaller than the sweep's size limit, doubtful or at the window's edge; if
/// it lies outside the second photo's window or measured area or under another piece; if it lost
/// half of its area; or if an unpaired piece of similar size lies within 5 mm, as this may be the
/// same one. A thread that is gone was blown away.
///
/// The size limit is the smallest size down to which, of any twenty pieces of neighbouring sizes in
/// the second photo, the first photo shows at least eighteen: all that is left after the magnet was
/// there before. It rises if the second photo's own size limit is above the first's, and it never
/// falls below the resolution limit of either photo. With fewer than twenty pieces it is the
/// greater of both photos' size limits. Ours.
///
/// Intervals: Wilson's (base/share_interval.h), from the case that every piece not known stayed to
/// the case that all of them went; by area with the effective number of pieces (Kish 1965, from
/// memory).
/// @return nothing if both photos have five pieces or more and these do not show the same place.
/// Checked: tests/particles/magnet_sweep_test.cpp (planted), tests/blackbox/magnet_sweep_test.cpp
/// (photos with truth).
std::optional<MagnetSweep> sweepPieces(const SweptPhoto& before, const SweptPhoto& after);

} // namespace swarfbook

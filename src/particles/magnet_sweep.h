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
    int notKnown = 0;                             ///< what became of them cannot be told
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
    bool limitByPair = false; ///< it comes from what both photos show; else from their size limits
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
/// A piece that is found again is not magnetic, one whose place is empty is. Not known is what is
/// smaller than the sweep's size limit, doubtful or at the window's edge; what lies outside the
/// second photo's window or measured area, under another piece, or lost half of its area; and what
/// has a left-over piece of like size within 5 mm, which it may have become. A thread that is gone
/// was blown away.
///
/// The size limit is the smallest size down to which each twenty pieces of neighbouring sizes that
/// the second photo shows hold at least eighteen that the first shows too: what is left after a
/// magnet was all there before. It rises as the second photo's own size limit is above the first's
/// and never falls below what either photo resolves. With fewer than twenty pieces it is the
/// greater of both photos' size limits. Ours.
///
/// Intervals: Wilson's (base/share_interval.h), from the case that every piece not known stayed to
/// the case that each went; by area with the effective number of pieces (Kish 1965, from memory).
/// @return nothing where five pieces or more in both photos do not show the same place.
/// Checked: tests/particles/magnet_sweep_test.cpp (planted), tests/blackbox/magnet_sweep_test.cpp
/// (photos with truth).
std::optional<MagnetSweep> sweepPieces(const SweptPhoto& before, const SweptPhoto& after);

} // namespace swarfbook

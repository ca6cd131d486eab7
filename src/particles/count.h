// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/particle.h"

#include <string>
#include <vector>

namespace swarfbook {

/// Size of the card's window, true millimetres.
struct WindowSize {
    Millimetres width;
    Millimetres height;
};

/// How particles are to be counted.
struct CountOptions {
    bool onWhiteCard = false;       ///< the whole sample lies in the window
    SquareCentimetres measuredArea; ///< window less what was left out; over 0 on a frame
    Millimetres detectionLimit;     ///< classes that reach below it are not complete
    Millimetres resolutionLimit;    ///< particles below it are not counted
};

/// The weight of a particle that lies wholly inside a frame: 1 / P, where
/// P = (Z1 - x1)(Z2 - x2) / (Z1 Z2) is the chance that a particle of axis-parallel extents x1, x2
/// falls wholly inside a window Z1 x Z2 (Miles-Lantuejoul; ISO 13322-1).
/// Throws std::logic_error if the particle cannot lie inside or has no outline.
double edgeWeight(const Particle& particle, const WindowSize& window);

/// Counts by ISO 16232 size class, from the class that holds the smallest size seen up to class N;
/// classes without particles are listed with a count of zero.
///
/// On a frame, particles that touch the window's edge are dropped and the others weighted by
/// edgeWeight; `per100Cm2` is the weighted count on 100 cm2 of measured area. On a white card every
/// particle counts once, touching or not, and `per100Cm2` is the count of the whole sample, since
/// the card's area says nothing about the sample. The interval is the exact Poisson 95 % interval
/// of the count, scaled as the count is; of an empty class on a frame it is that of 0, scaled by
/// the area alone. `complete` is false if the class begins below the size limit: its count is a
/// minimum. Throws std::logic_error for a frame without measured area.
/// Checked: tests/particles/count_test.cpp (simulated frames of known density).
std::vector<ClassCount> countByClass(const std::vector<Particle>& particles,
                                     const WindowSize& window, const CountOptions& options);

/// The ISO 16232 code of the complete classes: A(...), levels per 1000 cm2, from the weighted
/// counts of a frame; N(...), counts of one sample, on a white card. "" if no class is complete.
std::string cleanlinessCode(const std::vector<ClassCount>& counts, const CountOptions& options);

/// Writes the finding's counts and code from its pieces as they now are. Writes none if the pieces
/// are shown, not counted. @param window  that it was measured in
void countAnew(DebrisFinding& finding, const WindowSize& window);

/// How many pieces were found at the size limit and above, and how many smaller ones were seen.
struct PiecesFound {
    std::size_t fromFloor = 0, smaller = 0;
};
PiecesFound piecesFound(const DebrisFinding& finding);

} // namespace swarfbook

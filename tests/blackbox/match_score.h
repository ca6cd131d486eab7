// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"
#include "blackbox/truth.h"

namespace swarfbook::test {

/// How well a measurement agrees with the truth of its photo.
struct MatchScore {
    int asked = 0;             ///< true pieces that must be found
    int found = 0;             ///< of them
    int falseOnes = 0;         ///< reported, but there is no true piece
    int doubted = 0;           ///< doubtful ones among those found and the false ones
    int falseDoubted = 0;      ///< doubtful ones among the false ones
    double expectedFalse = 0;  ///< number of false ones by their own probabilities
    int sized = 0, inside = 0; ///< found single pieces; true size within value +- 1.96 u
    [[nodiscard]] double recall() const { return asked > 0 ? double(found) / asked : 1.0; }
    /// Several photos together.
    MatchScore& operator+=(const MatchScore& other);
};

/// Matches pieces one to one by place and size: within max(0.15 mm, 0.35 sizes) and a size ratio
/// under 2.5, nearest first. Counts pieces off the window's edge, at least half in sight, at least
/// 6 px and 0.2 mm (close card) or 0.4 mm (wide card) long. Touching pieces count as one if one
/// answer explains them better. Leaves out pieces on the window's edge, smaller true pieces,
/// foreign crumbs and pieces that a mirrored lamp hides.
MatchScore matchScoreOf(const Truth& truth, const DebrisFinding& finding);

/// True pieces just above the finding's size limit (to a quarter above it), without threads: how
/// many there are and how many of them were found; matched as above.
struct AtFloor {
    int asked = 0, found = 0;
};
AtFloor atFloor(const Truth& truth, const DebrisFinding& finding);

/// Worst error, percent, of lengths between neighbouring grid points against the true camera.
double scaleErrorPercent(const Truth& truth, const std::vector<GridPoint>& grid);

} // namespace swarfbook::test

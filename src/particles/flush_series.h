// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/flush_decay.h"
#include "particles/particle.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace swarfbook {

/// One pass as it was photographed.
struct PassSeen {
    FlushStep step = FlushStep::wash;
    const DebrisFinding* tray = nullptr; ///< what lay in the tray; null where it was not measured
};

/// What one pass washed out, from the size limit of the whole flush up.
struct PassCount {
    FlushStep step = FlushStep::wash;
    bool counted = false;   ///< false: nothing below is claimed
    int pieces = 0;         ///< threads and what touches the window's edge are left out
    int doubtful = 0;       ///< of them, less than 80 % sure to be debris
    double expected = 0.0;  ///< of them, how many are debris indeed
    SquareMillimetres area; ///< of them together
    std::optional<Measured<Millimetres>> largest; ///< of those that are not doubtful
    std::vector<int> byType = std::vector<int>(particleTypeCount, 0); ///< indexed by ParticleType
};

/// Whether demagnetising released more than washing alone had.
struct Demagnetising {
    std::size_t pass = 0; ///< the demagnetised one, from 1 on
    int released = 0;     ///< pieces
    int before = 0;       ///< pieces of the pass before
    PassAgainstPass against = PassAgainstPass::notToldApart;
};

/// A size class in which the clean tray shows too much.
struct TrayNotClean {
    std::string sizeClass;  ///< ISO 16232 letter
    int tray = 0, pass = 0; ///< pieces
};

/// All passes of a flush of one part together.
struct FlushSeries {
    Millimetres from; ///< the coarsest size limit of the passes: pieces are counted from here up
    std::vector<PassCount> passes;
    FlushDecay decay;
    std::optional<Demagnetising> demagnetising; ///< the last such pass with a counted one before it
    std::vector<TrayNotClean> trayNotClean;     ///< against the first pass counted
};

/// Counts every pass of a flush from one size limit up and judges how it goes down.
///
/// A finding that is shown and not counted counts as not measured. The ratio is that of the pieces
/// expected to be debris (the sum of Particle::debrisProbability): false finds are as many in the
/// last pass as in the first, and would keep the ratio up.
/// @param passes     in the order they were done; their findings are of one card and one tray.
/// @param cleanTray  the tray before the first pass, measured by itself; null where none was taken.
/// Checked: tests/particles/flush_series_test.cpp, tests/blackbox/flush_series_test.cpp (photos
/// with truth).
FlushSeries flushSeries(std::span<const PassSeen> passes, const DebrisFinding* cleanTray);

} // namespace swarfbook

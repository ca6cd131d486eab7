// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"
#include "debris/window_crop.h"

#include <filesystem>

namespace swarfbook {

/// How far the surface's own texture stands out from it: the median over the window of the robust
/// sigma of contrast, as a share of the surface's light. Some 0.01 on white paper, more on felt.
/// Every fourth pixel is looked at, or every second or each one where the photo is coarse. Where
/// hardly anything of the window is measured, as beside a magnet that fills it, that of all of it.
/// @return more than 0. Checked: tests/debris/detection_limit_test.cpp.
double surfaceNoise(const WindowCrop& crop);

/// What a photo offers a piece to be found by.
struct SeeingConditions {
    Millimetres resolutionLimit; ///< what its pixels and edges resolve: seenFromOf
    double surfaceNoise = 0.0;
    double unsureAround = 0.0; ///< how unsure the network is around the pieces found, their mean
    int pieces = 0;            ///< found; the fewer, the less their mean says
};

/// Probability of detection: the chance that a piece in sight, threads apart, is found. It rises to
/// less than 1 (touching pieces come out as one whatever their size); its log-odds on the way there
/// are linear in the logarithms of the longest side, in smallest sizes resolved, of the surface's
/// noise, and of how unsure the network is around what it found: the log-odds model of
/// nondestructive testing (MIL-HDBK-1823A, appendix G) with an upper asymptote. Where few pieces
/// are found, it leans on what is usual on surfaces of that noise. Fitted by
/// models/make/detection.py; how well it holds: models/piece-trust.md.
class DetectionModel {
  public:
    /// Reads detection.json. Throws ToolError.
    static DetectionModel load(const std::filesystem::path& file);

    /// @param longest  over 0
    /// @return 0 to 1.
    [[nodiscard]] double chance(Millimetres longest, const SeeingConditions& conditions) const;

    /// The longest side from which up nine of ten are found, at least `conditions.resolutionLimit`.
    /// Checked: tests/debris/detection_limit_test.cpp (drawn conditions; photos with known truth in
    /// tests/blackbox/photos_test.cpp).
    [[nodiscard]] Millimetres detectionLimit(const SeeingConditions& conditions) const;

    /// The least balance of precision and recall, F1, that a photo's counts must be expected to
    /// have.
    [[nodiscard]] double leastBalance() const { return leastBalance_; }

  private:
    /// Log-odds less the part of the size.
    [[nodiscard]] double ease(const SeeingConditions& conditions) const;

    double most_ = 1.0;
    double constant_ = 0.0;
    double perLogSize_ = 1.0;
    double perLogNoise_ = 0.0;
    double perLogUnsure_ = 0.0;
    double usualConstant_ = 0.0, usualPerLogNoise_ = 0.0; ///< log of the usual unsureness
    double usualCounts_ = 1.0;                            ///< as so many pieces
    double aim_ = 0.9; ///< chance at the floor itself; above it more are found
    double leastBalance_ = 0.72;
    double quietest_ = 0.01; ///< surface it was fitted to: no less noise is believed to help more
};

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"
#include "debris/window_crop.h"

#include <filesystem>

namespace swarfbook {

/// Strength of the surface's own texture: the median over the window of the robust sigma of
/// contrast, as a share of the surface's light. Some 0.01 on white paper, more on felt. Uses every
/// fourth pixel, or every second or each one if the photo is coarse. If almost nothing of the
/// window is measured, as with a magnet that fills it, uses the whole window.
/// @return more than 0. Checked: tests/debris/detection_limit_test.cpp.
double surfaceNoise(const WindowCrop& crop);

/// The conditions in a photo on which it depends whether a piece is found.
struct SeeingConditions {
    Millimetres resolutionLimit; ///< the size that its pixels and edges resolve: seenFromOf
    double surfaceNoise = 0.0;
    double unsureAround = 0.0; ///< how unsure the network is around the pieces found, mean
    int pieces = 0;            ///< number of pieces found; the fewer, the less their mean counts
};

/// Probability of detection: the chance that a piece in sight, threads apart, is found. It rises to
/// less than 1 (touching pieces come out as one whatever their size); its log-odds on the way there
/// are linear in the logarithms of the longest side over the smallest size resolved, of the
/// surface's noise, and of how unsure the network is around the pieces it found: the log-odds model
/// of nondestructive testing (MIL-HDBK-1823A, appendix G) with an upper asymptote. If few pieces
/// are found, it uses the usual unsureness on surfaces of that noise. Fitted by
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

    /// The least expected F1 (balance of precision and recall) with which a photo's pieces are
    /// counted.
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
    double aim_ = 0.9; ///< chance at the size limit itself; above it more are found
    double leastBalance_ = 0.72;
    double quietest_ = 0.01; ///< noise of the smoothest surface it was fitted to: less noise than
                             ///< that does not help more
};

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/particle.h"

#include <optional>
#include <span>

namespace swarfbook {

/// Which mean of a size distribution is asked for: moments alpha and beta of Masuda and Iinoya.
struct MeanSought {
    int alpha = 1; ///< 1: mean length; 3: mean by volume
    int beta = 0;  ///< 0: sizes counted by number
};

/// How many pieces must be measured so that 95 of 100 samples have the mean within `off` (relative)
/// of the true one, for log-normal sizes of this geometric standard deviation.
/// @return n = (u / off)^2 alpha^2 sigma^2 (2 c^2 sigma^2 + 1), sigma = ln spread, c = beta + alpha
/// / 2,
///         u = 1.96; not rounded. Throws std::logic_error unless spread >= 1 and off > 0.
/// Source: ISO 13322-1, annex on the number of particles (Masuda and Iinoya 1971).
/// Checked: tests/particles/size_sampling_test.cpp (the standard's published numbers).
double piecesNeeded(double spread, double off, const MeanSought& mean);

/// The inverse: how far off the mean of `pieces` pieces may be.
double offOfMean(double spread, int pieces, const MeanSought& mean);

/// Uncertainty of the size distribution from the pieces given, which must be those at and above the
/// size limit: below it small pieces are missed more often than large ones. On a frame only pieces
/// wholly inside count.
/// @return nothing for fewer than 3 pieces; from fewer than 6 the median has no 95 % interval, and
///         its limits are 0.
std::optional<SizeSampling> sizeSampling(std::span<const Particle> particles, bool onWhiteCard);

} // namespace swarfbook

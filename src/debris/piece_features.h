// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/candidate.h"

#include <array>
#include <string_view>
#include <vector>

namespace swarfbook {

/// What the network and the photo say of a piece as a whole, to be judged by PieceTrust. Answers
/// are those of the network's maps, 0 to 1; unsure is p (1 - p), 0.25 at the most.
enum class Feature {
    meanAnswer,     ///< mean of the piece map within
    greatestAnswer, ///< its greatest value
    logMaxFeret,    ///< log of the longest side / edge width of the photo
    logPixels,      ///< log of the longest side, px
    aspect,         ///< min / max Feret
    solidity,
    straightness, ///< max Feret / length along the piece
    growth,       ///< log of the longest side at 0.3 of the map / at one half
    shrink,       ///< the same at 0.7
    unsureWithin, ///< mean within
    unsureAround, ///< mean in a ring of 4 px around
    unsurePhoto,  ///< log of the window's pixels that the map leaves open (0.2 to 0.8) / sure ones
    seamWithin,   ///< mean of the seam map within
    brightMetal,  ///< log of the mean share of the type within, this one and the next four
    yellowMetal,
    lining,
    polymer,
    fibre,
    whiteHigh,         ///< 95th percentile of luma over the card's white, from evened codes
    whiteLow,          ///< 5th percentile
    castStrength,      ///< how far all sure pieces of the photo are drawn out one way
    castAlong,         ///< this one's elongation that way, times that
    photoUnsureAround, ///< mean of log(unsureAround + 0.005) over the photo's pieces
    photoGrowth,       ///< mean of growth over the photo's pieces
    photoShrink,       ///< mean of shrink
    photoTypeDoubt,    ///< mean entropy of the type shares over the photo's pieces, nats
    doubtedBright,     ///< brightMetal times photoTypeDoubt, this one and the next four
    doubtedYellow,
    doubtedLining,
    doubtedPolymer,
    doubtedFibre,
    logSurfaceNoise, ///< log of (the surface's noise + 0.001): on smooth paper faint pieces count
    count
};
inline constexpr int featureCount = static_cast<int>(Feature::count);
using Features = std::array<float, featureCount>;

/// The names as models/piece-trust.json writes them, in order.
const std::array<std::string_view, featureCount>& featureNames();

/// What a network answered about a window.
struct JudgedWindow {
    const CalibratedPhoto& photo;
    const WindowCrop& crop;
    const PieceMaps& maps;
    double surfaceNoise; ///< of the crop (detection_limit.h)
};

/// Features of all pieces of one window, in order.
/// Checked: tests/debris/piece_features_test.cpp (drawn maps and pieces).
std::vector<Features> featuresOf(const JudgedWindow& window, const std::vector<Candidate>& pieces);

/// Share of a piece's pixels that are bluer than the card's white by more than metal, lining or
/// plastic of a transmission is, as sealant from earlier work is.
/// Checked: tests/debris/piece_features_test.cpp.
double blueShare(const CalibratedPhoto& photo, const WindowCrop& crop, const Candidate& piece);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/candidate.h"

#include <array>
#include <string_view>
#include <vector>

namespace swarfbook {

/// What is known of a candidate before it is judged: pure numbers, none in pixels alone, so that
/// another card, phone or distance changes little. Lengths are in edge widths of the photo, light
/// is relative to the card's white or to the surface beside.
enum class Feature {
    logArea, ///< area / edge width^2
    logMaxFeret,
    logMinFeret,
    aspect, ///< min / max Feret
    solidity,
    straightness, ///< max Feret / length along the piece
    formFactor,
    likeSurface, ///< of the area that looks like the surface: holes, flat middles
    logPeak,     ///< peak contrast / noise of the surface
    logMean,     ///< mean contrast / noise
    meanCodes,   ///< mean contrast, share of the code range
    kMean,       ///< light relative to the surface, of the surface's colour
    kLow,        ///< its 10th percentile
    kHigh,       ///< its 90th percentile
    kSpread,
    colour, ///< mean colour difference from the surface
    red,    ///< mean linear light over the card's white
    green,
    blue,
    whiteHigh,     ///< 95th percentile of luma over the card's white: glint
    whiteLow,      ///< 5th percentile
    yellow,        ///< (r + g - 2 b) / (r + g + b)
    reddish,       ///< (r - g) / (r + g + b)
    acutance,      ///< contrast across one edge width at the outline, median, share of the mean
    acutanceLow,   ///< its lower quartile
    darkerRim,     ///< share of the outline that is darker inside than outside
    halo,          ///< contrast left 1.5 edge widths outside, share of the mean
    noise,         ///< of the surface, share of the code range
    surface,       ///< the surface's luma over the card's white
    surfaceColour, ///< its saturation
    neighbours,    ///< log of other candidates of like size within 4 mm
    aligned,       ///< how parallel the neighbours lie, 0 to 1
    certainty,     ///< of the piece model, mean within
    growth,        ///< log of the longest side at a lower level of certainty / at the outline's
    shrink,        ///< the same at a higher level
    sharpAround,   ///< share of the area within a large piece whose border is sharp all round
    castStrength,  ///< how far all outlines are drawn out one way (src/debris/cast_shadows.h)
    castAlong,     ///< this one's elongation that way, times that
    castSide,      ///< how much darker it is beside all of them on one side
    castRing,      ///< how much darker all round them
    count
};
inline constexpr int featureCount = static_cast<int>(Feature::count);
using Features = std::array<float, featureCount>;

/// The names as the model files write them, in order.
const std::array<std::string_view, featureCount>& featureNames();

/// Share of a candidate's pixels that are bluer than the card's white by more than metal, lining or
/// plastic of a transmission is, as sealant from earlier work is.
/// Checked: tests/debris/features_test.cpp.
double blueShare(const CalibratedPhoto& photo, const WindowCrop& crop, const ContrastField& field,
                 const Candidate& candidate);

/// Features of all candidates of one window; neighbours are counted among them.
/// Checked: tests/debris/features_test.cpp (drawn pieces).
std::vector<Features> featuresOf(const CalibratedPhoto& photo, const WindowCrop& crop,
                                 const ContrastField& field,
                                 const std::vector<Candidate>& candidates);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/cast_shadows.h"
#include "debris/contrast.h"
#include "debris/piece_model.h"

#include <opencv2/core.hpp>

#include <array>
#include <span>
#include <string_view>
#include <vector>

namespace swarfbook {

/// What is known of a straight cut through an outline; lengths over the photo's edge width. `small`
/// and `large`: the two sides, by area.
enum class CutFeature {
    chord,         ///< log of the cut's length
    smallWidth,    ///< the cut's length over the small side's greatest width
    largeWidth,    ///< ... over the large side's
    smallArea,     ///< log of the area
    areaRatio,     ///< log of small over large
    solidity,      ///< of both together: area over that of the convex hull
    smallSolidity, ///< of the small side alone ...
    largeSolidity, ///< ... and of the large one
    aspect,        ///< of both together: shortest over longest side
    smallAspect,   ///< of the small side alone ...
    largeAspect,   ///< ... and of the large one
    deepest,       ///< how far the outline bends inwards at the one end ...
    shallowest,    ///< ... and at the other
    lightness,     ///< difference of the sides' means, of 255
    colour,        ///< the same of what is not lightness
    spread,        ///< difference in lightness over its spread within the sides
    nearLightness, ///< as `lightness`, close to the cut
    nearColour,    ///< as `colour`, close to the cut
    gap,           ///< contrast with the surface along the cut over the lesser of the sides'
    gapLow,        ///< the same of the cut's faintest point
    piece,         ///< mean of the piece map along the cut
    pieceLow,      ///< its lowest point
    seam,          ///< highest point of the seam map along the cut
    across,        ///< lightness on the cut less that close to it, of 255
    smallLight,    ///< of the small side over the surface's
    largeLight,    ///< of the large side
    smallYellow,   ///< how much bluish light the small side lacks, over all
    largeYellow,   ///< of the large side
    smallRed,      ///< how much more red than green, over all, of the small side
    largeRed,      ///< of the large side
    smallSpread,   ///< of lightness within the small side, of 255
    largeSpread,   ///< within the large side
    smallTint,     ///< how unevenly the small side changes the surface's three colours
    largeTint,     ///< how unevenly the large side does
    castAlong,     ///< whether the sides lie one behind the other as the photo's shadows do
    castToward,    ///< whether the small side lies where the photo's shadows are dark
    castStrength,  ///< how far the photo's outlines are drawn out in common
    castRing,      ///< how much darker it is all round pieces
    count
};
constexpr auto cutFeatureCount = static_cast<std::size_t>(CutFeature::count);
using CutFeatures = std::array<float, cutFeatureCount>;
const std::array<std::string_view, cutFeatureCount>& cutFeatureNames();

/// A straight cut that may part an outline into two pieces.
struct Cut {
    std::size_t from = 0, to = 0; ///< points of the outline, from < to
    CutFeatures features{};
};

/// An outline in the crop and the pixels within.
struct CutTask {
    std::span<const cv::Point2d> outline; ///< crop pixels
    cv::Rect box;                         ///< in the crop
    const cv::Mat& mask;                  ///< CV_8U of `box`
};

/// The window that the outline lies in.
struct CutSurroundings {
    const ContrastField& field;
    const PieceMap& map;
    const CastShadows& cast;
    double edge = 1.0; ///< width of the photo's edges, px
};

/// The cuts between the outline's bays that leave some pixels on either side, the most promising
/// first: deep bays, short cuts. None where the outline bends inwards nowhere.
/// Checked: tests/debris/cut_test.cpp.
std::vector<Cut> likelyCuts(const CutTask& task, const CutSurroundings& around);

/// The side of a cut that holds the outline's points from..to. @return CV_8U of the box.
/// Checked: tests/debris/cut_test.cpp.
cv::Mat sideOf(const Cut& cut, const CutTask& task);

} // namespace swarfbook

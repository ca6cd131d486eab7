// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/piece_network.h"
#include "debris/piece_trust.h"
#include "debris/surface_texture.h"
#include "particles/particle.h"

#include <opencv2/core.hpp>

#include <string>
#include <variant>
#include <vector>

namespace swarfbook {

/// The same scene under a lamp that was moved, in the pixels of the first photo's crop.
struct SecondLight {
    CalibratedPhoto photo; ///< the first one's card and surface, the second one's light
    WindowCrop crop;       ///< the first one's, with the second one's picture; `inside` where both
                           ///< show the window
    PieceMaps first;       ///< what the network says of the first photo
    PieceMaps second;      ///< of the second one, brought into the first one's pixels
    PieceMaps together;    ///< of both: pieces and seams, to be outlined
    double likeness = 1.0; ///< correlation of both piece maps, 0 to 1
    PointOnCard shift;     ///< true mm by which the scene lies elsewhere on the second one's card
};

/// Why a photo is no second light of another one, and what to do.
struct SecondLightMisfit {
    std::string detail, advice;
};

/// Lays a photo of the same scene in other light under the first one.
///
/// The card in each photo says where its pixels lie. Where the scene lies elsewhere on the second
/// card by 0.25 to 1 mm (the card slid), the maps' correlation says by how much; a torch that goes
/// to the other side moves it by 0.12 mm without any slide. The pieces of both are put together by
/// the mean of the log-odds of the two piece maps: a shadow or a highlight that one photo alone
/// shows falls under one half. Where the second photo does not show the window, the first one's map
/// stands.
/// @return a misfit where the phone was held more than 6 degrees otherwise (what stands up is then
///         seen elsewhere), or the second photo shows other pieces: correlation under 0.4; photos
///         of one scene reach 0.8, of two scenes 0.1. Ours.
/// Checked: tests/debris/second_light_test.cpp (drawn scenes), tests/blackbox/second_light_test.cpp
/// (photos with truth).
std::variant<SecondLight, SecondLightMisfit>
laySecondLight(const SurfacePhoto& first, const SurfacePhoto& second, const PieceNetwork& network);

/// One map of how sure it is that a piece is there, of two: the mean of their log-odds, each held
/// between 0.01 and 0.99; two equal answers stay as they are. CV_8U, 255 for 1.
cv::Mat togetherOf(const cv::Mat& first, const cv::Mat& second);

/// A piece's type in two lights.
struct TypeInTwoLights {
    TypeLogShares logShares{}; ///< of both together
    TwoLights said;
};

/// What both lights say of the type of every piece: the mean of both photos' log-probabilities, for
/// two photos of one scene are no independent witnesses, and what the change of its light adds.
///
/// Matte matter sends the same share of the light that falls on the card's white; a metal facet
/// flashes. Of a mean change over 0.3 of the white every tenth multiplies the odds of metal by e,
/// three of them at the most; a small change says nothing, for a flat flake lies as the card does.
/// Our own experiment with a pair of known truth: lining and plastic change by 0.06 to 0.30,
/// aluminium by 0.5 in the median. Nothing for a piece that the second photo shows by less than
/// half.
/// Checked: tests/debris/second_light_test.cpp.
std::vector<std::optional<TypeInTwoLights>> typesInTwoLights(const JudgedWindow& first,
                                                             const SecondLight& second,
                                                             const PieceTrust& trust,
                                                             const std::vector<Candidate>& pieces);

} // namespace swarfbook

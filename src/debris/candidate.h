// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/contrast.h"
#include "debris/piece_model.h"
#include "debris/window_crop.h"

#include <opencv2/core.hpp>

#include <vector>

namespace swarfbook {

class CutModel;

/// Something that stands out from its surroundings, before it is known what it is.
struct Candidate {
    cv::Rect box;                     ///< in the crop, with a rim of 3 px at least
    cv::Mat mask;                     ///< CV_8U, of `box`, holes filled
    std::vector<cv::Point2d> outline; ///< level contour of the piece map, crop pixels
    double areaPx = 0.0;              ///< of the mask
    double peak = 0.0;                ///< largest contrast within
    double noise = 1.0;               ///< of the surface around
    double likeSurface = 0.0;         ///< share of the mask that looks like the surface
    double certainty = 0.0;           ///< mean of the piece map within
    double growth = 1.0;              ///< longest side at a lower level / at the outline's
    double shrink = 1.0;              ///< longest side at a higher level / at the outline's
    bool atEdge = false;              ///< touches the measured window's border
    bool mayBeSeveral = false;        ///< shows a seam or neck that does not part it convincingly
};

/// The parts of the window that stand out far enough to be looked at: pixels above 3.2 sigma (and 6
/// codes), joined, with a peak above 6 sigma (and 12 codes), and a rim of their surroundings.
std::vector<cv::Rect> placesWorthALook(const ContrastField& field);

/// The model's answer for the places worth a look, large pieces and threads entered.
PieceMap pieceMapOf(const WindowCrop& crop, const ContrastField& field, const PieceModel& model,
                    Pixels edgeWidth);

/// What outlines are cut by.
struct CutSettings {
    const CutModel& model;
    Pixels edgeWidth; ///< of the photo
};

/// Outlines what the piece map shows, parts pieces that touch, along a seam or across a neck, and
/// cuts off what is no piece.
/// Checked: tests/debris/measure_debris_test.cpp, candidate_test.cpp.
std::vector<Candidate> candidatesOf(const WindowCrop& crop, const ContrastField& field,
                                    const PieceMap& map, const CutSettings& cuts);

/// What outlines are found by.
struct OutlineModels {
    const PieceModel& pieces;
    const CutModel& cuts;
};

/// All of it: the piece map and its outlines.
std::vector<Candidate> findCandidates(const WindowCrop& crop, const ContrastField& field,
                                      const OutlineModels& models, Pixels edgeWidth);

} // namespace swarfbook

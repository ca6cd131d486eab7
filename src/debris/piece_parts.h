// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/contrast.h"
#include "debris/piece_model.h"
#include "debris/window_crop.h"

#include <opencv2/core.hpp>

#include <vector>

namespace swarfbook {

/// One part of the piece map in its own box.
struct PiecePart {
    cv::Rect box;       ///< in the crop, with a rim
    cv::Mat mask;       ///< CV_8U of the box, this part alone
    float level = 0.0F; ///< of the piece map, at which it is outlined
    bool hasSeam = false;
    cv::Mat beside{}; ///< CV_8U of the box, what was cut off it; may be empty
    cv::Mat light{};  ///< its outlineField where that was needed before; may be empty
};

/// How wide edges are.
struct OutlineScale {
    double edge = 1.0; ///< px
    int reach = 2;     ///< px either way, see outline_field.h
};

constexpr int partRim = 4; ///< px round a part, within the window

/// A part's box with a rim, within a picture of this size.
cv::Rect withRim(const cv::Rect& box, cv::Size picture);

/// The mask and what lies within a few pixels of it, none of another part.
cv::Mat nearMask(const cv::Mat& mask, int reach, const cv::Mat& others);

/// What the piece map shows of other parts, and what was cut off this one. @return CV_8U of the
/// box.
/// @param piece  the map within the box, CV_32F, 0 to 1
cv::Mat othersBeside(const PiecePart& part, const cv::Mat& piece);

/// The map's connected parts: sure ones, what is only suspected beside them, both parted along
/// seams where either side is a piece of its own, and where the photo shows the surface between
/// them. Checked: tests/debris/candidate_test.cpp.
std::vector<PiecePart> piecePartsOf(const WindowCrop& crop, const ContrastField& field,
                                    const PieceMap& map, const OutlineScale& scale);

} // namespace swarfbook

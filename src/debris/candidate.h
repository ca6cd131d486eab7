// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/contact_trust.h"
#include "debris/piece_network.h"
#include "debris/window_crop.h"

#include <opencv2/core.hpp>

#include <vector>

namespace swarfbook {

/// A part of the window that the network takes for a piece, before PieceTrust judges it.
struct Candidate {
    cv::Rect box;                     ///< in the crop, with a rim of 4 px as far as there is one
    cv::Mat mask;                     ///< CV_8U, of `box`, holes filled
    std::vector<cv::Point2d> outline; ///< level line of the piece map at one half, crop pixels
    double areaPx = 0.0;              ///< of the mask
    double growth = 1.0;              ///< longest side at 0.3 of the piece map / at one half
    double shrink = 1.0;              ///< longest side at 0.7 of the piece map / at one half
    bool atEdge = false;              ///< touches the measured window's border
    bool mayBeSeveral = false;        ///< shows a seam of 0.43 or more that does not separate it
};

/// Labels the parts of a window: a part is where the piece map is 0.5 or more, separated where the
/// seam map is 0.3 or more, then grown down to 0.4 of the piece map. Pixels join by their sides.
/// Two parts that touch need not be two pieces: ContactTrust judges that.
/// @return CV_32S of the crop's size, parts from 1 on, 0 elsewhere
/// Checked: tests/debris/candidate_test.cpp (drawn maps).
cv::Mat labelledParts(const PieceMaps& maps, const WindowCrop& crop);

/// Outlines the pieces of a window: its parts, joined where two parts are one piece.
/// @param maps  of the crop's size
/// @return in reading order of their first pixels; parts smaller than 4 px are dropped.
/// Checked: tests/debris/candidate_test.cpp (drawn maps).
std::vector<Candidate> findPieces(const PieceMaps& maps, const WindowCrop& crop,
                                  const ContactTrust& contacts);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/piece_network.h"
#include "network/convolutions.h"

#include <opencv2/core.hpp>

namespace swarfbook {

/// The piece network's answer for 2 x 2 pixels: four logits of "piece", four of "seam" (upper left,
/// upper right, lower left, lower right), five of types.
constexpr int answerChannels = 13;

/// A sheet that the network has answered: its width and the width of the context at its rim, px.
struct AnsweredSheet {
    int width = 0, rim = 0;
};

/// Writes the values of a sheet's answers into a part of the maps.
/// @param part  in the maps' pixels, begins at even ones; the sheet shows it within its rim
/// Checked: tests/debris/piece_shares_test.cpp.
void writeShares(const Answers& answers, const AnsweredSheet& sheet, const cv::Rect& part,
                 PieceMaps& maps);

/// Adds the answer for the same sheet mirrored left to right: the maps then hold the mean of both.
/// If only one answer has a piece, its types are kept.
/// Checked: tests/debris/piece_network_test.cpp.
void addMirroredShares(const Answers& answers, const AnsweredSheet& sheet, const cv::Rect& part,
                       PieceMaps& maps);

} // namespace swarfbook

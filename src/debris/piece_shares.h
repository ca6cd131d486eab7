// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/piece_network.h"
#include "network/convolutions.h"

#include <opencv2/core.hpp>

namespace swarfbook {

/// What the piece network answers for 2 x 2 pixels: four logits of "piece", four of "seam" (upper
/// left, upper right, lower left, lower right), five of types.
constexpr int answerChannels = 13;

/// A sheet that was answered for: its width and how much of its rim was seen for the rest's sake,
/// px.
struct AnsweredSheet {
    int width = 0, rim = 0;
};

/// Writes what a sheet's answers come to into a part of the maps.
/// @param part  in the maps' pixels, begins at even ones; the sheet shows it within its rim
void writeShares(const Answers& answers, const AnsweredSheet& sheet, const cv::Rect& part,
                 PieceMaps& maps);

/// Brings in what the same sheet, shown mirrored left to right, was answered: the maps hold the
/// mean of both. Where one answer alone has a piece, the types are that one's.
/// Checked: tests/debris/piece_network_test.cpp.
void addMirroredShares(const Answers& answers, const AnsweredSheet& sheet, const cv::Rect& part,
                       PieceMaps& maps);

} // namespace swarfbook

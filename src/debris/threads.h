// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/contrast.h"
#include "debris/piece_model.h"
#include "debris/window_crop.h"

namespace swarfbook {

/// Threads that come and go: where the piece map shows parts of a thread, follows them from either
/// end by what lies in line with them, too faint to be seen pixel by pixel, and enters what was
/// found in the map, so that parts of one thread join.
///
/// A thin part of the map is followed in steps of half of 8 px, each within 36 degrees of the last,
/// as long as the light along a step differs from that on both sides of it by enough of the
/// thread's own difference and of the surface's noise (a matched filter for lines); one step
/// without is passed over.
/// @param edge  width of the photo's edges, px
/// Checked: tests/debris/threads_test.cpp (drawn threads, scratches' ends, bare noise).
void enterThreads(PieceMap& map, const WindowCrop& crop, const ContrastField& field, double edge);

/// Whether a connected mask (CV_8U) is long and as thin as a thread in a photo with such edges.
bool isThread(const cv::Mat& mask, double edge);

} // namespace swarfbook

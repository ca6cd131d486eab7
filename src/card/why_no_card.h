// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/result.h"

#include <opencv2/core.hpp>

namespace swarfbook {

/// Sharpness of the sharpest edges of any picture: their slope per pixel divided by their slope in
/// the picture reduced to an eighth, in the worst of four directions. About 1 for a sharp picture;
/// falls as the blur (or a motion in any one direction) grows, to an eighth for a blur much wider
/// than eight pixels.
/// @param grey  CV_8U. @return over 0; 1 for a picture without edges or less than 64 px high or
///              wide. Checked: tests/card/why_no_card_test.cpp (drawn blur).
double sharpestSlope(const cv::Mat& grey);

/// Why no card was found in a picture: it may be there, but the picture is too dark, washed out or
/// smeared all over to show its markers. Otherwise `noCard` itself.
Refusal whyNoCard(const cv::Mat& bgr, const Refusal& noCard);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <opencv2/core.hpp>

#include <vector>

namespace swarfbook {

/// Way and strength of an outline's elongation about the mean of its points, by their second
/// moments: doubled angle (so that 0 and 180 degrees agree), 0 (round) to 1 (a line) long.
cv::Point2d elongationOf(const std::vector<cv::Point2d>& outline);

/// The elongation that outlines share. No single outline says whether a shadow was taken in; but
/// pieces lie every way, so what is common to all of them is the lamp's.
/// @param elongations  of pieces, as elongationOf gives them
/// @return their mean, shorter by what chance alone would give; zero where that is all
/// Checked: tests/debris/shared_elongation_test.cpp (closed forms, drawn outlines).
cv::Point2d sharedElongation(const std::vector<cv::Point2d>& elongations);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <opencv2/core.hpp>

#include <vector>

namespace swarfbook {

/// Direction and strength of an outline's elongation about the mean of its points, by their second
/// moments: a vector with doubled angle (so that 0 and 180 degrees agree) and length 0 (round) to 1
/// (a line).
cv::Point2d elongationOf(const std::vector<cv::Point2d>& outline);

/// The elongation that all outlines share. A single outline does not show whether it includes a
/// shadow. But pieces lie in all directions, so a common elongation comes from the lamp.
/// @param elongations  of pieces, as elongationOf gives them
/// @return their mean, shortened by the mean expected from chance; zero if nothing remains
/// Checked: tests/debris/shared_elongation_test.cpp (closed forms, drawn outlines).
cv::Point2d sharedElongation(const std::vector<cv::Point2d>& elongations);

} // namespace swarfbook

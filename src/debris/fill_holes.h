// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <opencv2/core.hpp>

namespace swarfbook {

/// Sets all pixels within an outline of the mask (CV_8U, 0 and 255) to 255.
/// Checked: tests/debris/candidate_test.cpp (a ring).
void fillHoles(cv::Mat& mask);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <opencv2/core.hpp>

namespace swarfbook {

/// Grows labelled cores over a map, from its heights down, until they meet or the map ends: a
/// watershed by flooding (Meyer, Signal Processing 38 (1994) 113). Pixels join by their sides; what
/// no core reaches keeps the label 0. If two cores reach a pixel at the same height, the first in
/// reading order gets it, whatever the number of threads.
/// @param labels  CV_32S, 0 where no core is
/// @param height  CV_8U of its size
/// @param least  pixels at this height or above may be joined
/// Checked: tests/debris/grow_cores_test.cpp (drawn hills).
void growCores(cv::Mat& labels, const cv::Mat& height, uchar least);

} // namespace swarfbook

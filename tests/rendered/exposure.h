// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "rendered/rendered_card.h"

namespace swarfbook::test {

/// The 8-bit picture that a camera makes of linear light: blurred, exposed, sRGB-encoded, noisy.
cv::Mat exposedCodes(const cv::Mat_<cv::Vec3f>& light, const Exposure& exposure);

} // namespace swarfbook::test

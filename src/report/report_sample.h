// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"
#include "report/report_model.h"

#include <opencv2/core.hpp>

namespace swarfbook {

/// One photo's part of a report: facts, pictures, and crops of its largest pieces.
///
/// @param bgr          the photo, upright; may be empty when it cannot be decoded any more: then
///                     the numbers are reported without pictures.
/// @param measurement  of it; refused photos give a sample that says so.
ReportedSample reportedSample(const cv::Mat& bgr, const Measurement& measurement);

/// The window alone with its marks, no legend, at the given scale: for laying side by side.
cv::Mat windowPicture(const cv::Mat& bgr, const Measurement& measurement,
                      PixelsPerMillimetre scale);

} // namespace swarfbook

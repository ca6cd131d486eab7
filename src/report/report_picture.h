// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "report/report_model.h"

#include <opencv2/core.hpp>

namespace swarfbook {

/// The report as one picture for a message: job, verdict, reasons, the most telling photo, what is
/// suggested and when to look again. 1080 px wide, as high as it needs to be.
/// @return 8-bit BGR. Checked: tests/report/report_picture_test.cpp.
cv::Mat reportPicture(const ReportModel& model);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <opencv2/core.hpp>

namespace swarfbook {

/// Takes a picture and returns a copy of it with white rows below. If nobody else keeps the
/// picture, its rows are freed as they are copied, so a large photo is never held twice. Checked:
/// tests/report/annotated_photo_test.cpp.
cv::Mat withRoom(cv::Mat&& picture, int rowsBelow);

} // namespace swarfbook

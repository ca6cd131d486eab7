// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <opencv2/core.hpp>

namespace swarfbook {

/// Takes a picture; gives a copy of it with white rows below. Of a picture that nobody else keeps
/// the rows go once they are copied: a large photo is never held twice. Checked:
/// tests/report/annotated_photo_test.cpp.
cv::Mat withRoom(cv::Mat&& picture, int rowsBelow);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/fill_holes.h"

#include <opencv2/imgproc.hpp>

namespace swarfbook {

void fillHoles(cv::Mat& mask) {
    cv::Mat padded;
    cv::copyMakeBorder(mask, padded, 1, 1, 1, 1, cv::BORDER_CONSTANT, cv::Scalar(0));
    cv::Mat flood(padded.rows + 2, padded.cols + 2, CV_8U, cv::Scalar(0));
    cv::floodFill(padded, flood, {0, 0}, cv::Scalar(128), nullptr, 0, 0, 4);
    const cv::Mat inner = padded(cv::Rect(1, 1, mask.cols, mask.rows));
    mask.setTo(255, inner != 128);
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <opencv2/imgproc.hpp>

namespace swarfbook {

/// A map over a picture that changes smoothly from place to place: exact every 16 pixels and linear
/// between, which is accurate to a hundredth of a pixel for a lens's distortion and a card's slant.
///
/// @param size   of the picture.
/// @param valueAt  takes a pixel place (cv::Point2d) and gives a Value (float or cv::Vec2f).
/// Checked: tests/magnet/top_view_test.cpp, tests/debris/clean_reference_surface_test.cpp.
template <class Value, class Function> cv::Mat smoothMap(cv::Size size, const Function& valueAt) {
    constexpr int step = 16;
    cv::Mat_<Value> nodes(size.height / step + 3, size.width / step + 3);
    for (int j = 0; j < nodes.rows; ++j)
        for (int i = 0; i < nodes.cols; ++i)
            nodes(j, i) = valueAt(cv::Point2d((i - 0.5) * step - 0.5, (j - 0.5) * step - 0.5));
    cv::Mat full;
    cv::resize(nodes, full, {nodes.cols * step, nodes.rows * step}, 0, 0, cv::INTER_LINEAR);
    return full(cv::Rect({step, step}, size)).clone();
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <opencv2/core.hpp>

#include <span>
#include <vector>

namespace swarfbook {

/// Pixels of one row side by side.
struct PixelRun {
    int row = 0, from = 0, to = 0; ///< `to`: one past the last
    [[nodiscard]] int length() const { return to - from; }
};

/// Pixels that touch each other, by a side or a corner.
struct ConnectedPart {
    cv::Rect box; ///< just round it
    int area = 0;
    std::span<const PixelRun> runs; ///< in reading order; lives as long as its ConnectedParts

    /// This part alone in a box of the mask that holds all of it. @return CV_8U, 0 and 255.
    [[nodiscard]] cv::Mat maskIn(const cv::Rect& around) const;
};

/// The connected parts of a mask (CV_8U, not 0 within) of at least some pixels, in reading order of
/// the first 2 x 2 pixels that hold some of them, which is the order of OpenCV's labels. Held as
/// runs of pixels: where little of a large window stands out, that takes far less time and memory
/// than a picture of labels. Checked: tests/debris/connected_parts_test.cpp (against OpenCV's
/// labels).
class ConnectedParts {
  public:
    ConnectedParts(const cv::Mat& mask, int leastArea);
    ConnectedParts(const ConnectedParts&) = delete;
    ConnectedParts& operator=(const ConnectedParts&) = delete;

    [[nodiscard]] auto begin() const { return parts_.begin(); }
    [[nodiscard]] auto end() const { return parts_.end(); }

  private:
    std::vector<PixelRun> runs_; ///< part by part
    std::vector<ConnectedPart> parts_;
};

} // namespace swarfbook

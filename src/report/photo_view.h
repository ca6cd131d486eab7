// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/card_facts.h"
#include "report/drawing.h"

#include <opencv2/core.hpp>

namespace swarfbook {

/// A picture together with the place of the card's plane in it.
class PhotoView {
  public:
    /// The photo as it was taken.
    PhotoView(const cv::Mat& bgr, const CardFacts& card);
    /// A part of the card's plane as seen straight from above, at one scale all over.
    ///
    /// @param area   true millimetres; places outside the photo become light grey.
    /// @param scale  of the picture. If the photo is finer, its pixels are averaged, not skipped.
    static PhotoView straightened(const cv::Mat& bgr, const CardFacts& card, const CardRect& area,
                                  PixelsPerMillimetre scale);

    [[nodiscard]] const cv::Mat& picture() const { return picture_; }
    /// Where a point of the card (true mm) lies, in Cairo's frame: half a pixel more than OpenCV's.
    [[nodiscard]] Spot spotOf(PointOnCard p) const;
    /// Scale at p along the picture's horizontal: a horizontal line of this many pixels there is
    /// 1 mm long on the card's plane.
    [[nodiscard]] PixelsPerMillimetre horizontalScaleAt(PointOnCard p) const;
    [[nodiscard]] bool isStraightened() const { return straight_; }

  private:
    PhotoView() = default;
    cv::Mat picture_;
    PlaneMapping mapping_;
    double printScale_ = 1.0;
    bool straight_ = false;
    CardRect area_;
    double scale_ = 1.0;
};

} // namespace swarfbook

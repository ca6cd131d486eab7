// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/calibrated_photo.h"

#include <opencv2/core.hpp>

namespace swarfbook {

/// A part of a photo, reduced or not, as the piece network gets it.
struct NetworkView {
    cv::Mat bgr;        ///< CV_8UC3
    cv::Point2d origin; ///< photo pixel of the upper left corner (not the centre) of its pixel 0, 0
    double reduced = 1.0; ///< its pixels per photo pixel, 1 at the most

    [[nodiscard]] PointInPhoto inPhoto(cv::Point2d p) const {
        return {(p.x + 0.5) / reduced + origin.x, (p.y + 0.5) / reduced + origin.y};
    }
};

/// Light as a share of the light that the card's white would send from the same place, as the piece
/// network takes it: code / 150 - 0.8 of the whole code 150 sqrt(linear light / white), 255 at the
/// most. The card's own paper has 0.2. Source: models/make/network/data.py, which writes the
/// training data.
class LightAgainstWhite {
  public:
    LightAgainstWhite(const CalibratedPhoto& photo, const NetworkView& view);

    /// Writes a part of the view as three planes, blue, green, red.
    /// @param part   in the view's pixels, within it
    /// @param planes of `size` each; the part's upper left pixel is written at `at`
    struct Planes {
        float* numbers = nullptr;
        cv::Size size;
        cv::Point at;
    };
    void write(const cv::Rect& part, const Planes& planes) const;

  private:
    [[nodiscard]] cv::Vec3f gainAt(int y, int node) const;

    const NetworkView* view_;
    cv::Mat_<cv::Vec3f> gains_; ///< 150 / sqrt(white) at the nodes of a grid
};

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/calibrated_photo.h"

#include <opencv2/core.hpp>

namespace swarfbook {

/// The light that the card's white paper would send from places in and near the window: the
/// logarithm of linear light per channel as a quadratic over the photo. PaperLight holds for the
/// whole card and is off by up to a tenth near the window; the piece network learnt with this.
class WindowWhite {
  public:
    /// Fits it to the paper 1.2 to 2.8 mm outside the window; print, shadows and smudges there are
    /// left out; where the photo does not show that paper, PaperLight stands in for it.
    /// Source: models/make/network/data.py, which writes what the network learns from.
    /// Checked: tests/debris/window_white_test.cpp (a card under light that is known).
    explicit WindowWhite(const CalibratedPhoto& photo);

    /// Linear light, 0 to 1, blue, green, red.
    [[nodiscard]] cv::Vec3d at(PointInPhoto p) const;

  private:
    [[nodiscard]] cv::Vec<double, 6> termsAt(PointInPhoto p) const;

    cv::Size photo_;
    cv::Matx<double, 6, 3> fit_;
};

} // namespace swarfbook

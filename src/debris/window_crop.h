// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/calibrated_photo.h"
#include "particles/particle.h"

#include <opencv2/core.hpp>

#include <vector>

namespace swarfbook {

/// The part of a calibrated photo that shows the card's window, in the photo's own pixels.
struct WindowCrop {
    cv::Mat bgr;      ///< view into the photo
    cv::Point origin; ///< photo pixel of the crop's (0, 0)
    cv::Mat inside;   ///< CV_8U, 255 where the window is measured: printed line and cut edge out
    double pxPerMm = 1.0; ///< true millimetres
    cv::Mat reduced;      ///< bgr halved until about 2 px/mm are left, for large things
    int reducedBy = 1;    ///< by how many pixels a side

    [[nodiscard]] PointInPhoto inPhoto(cv::Point2d p) const {
        return {p.x + origin.x, p.y + origin.y};
    }
};

/// The window of a photo as it is measured: glare and deep shadow taken out.
struct PreparedWindow {
    WindowCrop crop;
    std::vector<LeftOut> leftOut;
    SquareMillimetres windowArea;
    SquareMillimetres measuredArea; ///< without the parts left out
};

/// Cuts out the window. `inside` leaves out the window's own line (white card) or cut edge (frame)
/// and `margin` within it.
WindowCrop cropWindow(const CalibratedPhoto& photo, Millimetres margin);

/// Takes washed-out parts (two channels at the top of the range over at least 2 mm2; on another
/// surface than the card's paper without any grain in them) out of `crop.inside`. @return what was
/// taken out, largest first, true mm.
std::vector<LeftOut> leaveOutGlare(const CalibratedPhoto& photo, WindowCrop& crop,
                                   bool onWhiteCard);

/// Takes parts that are too dark to measure (all channels under code 16 over at least 20 mm2) out
/// of `crop.inside`. @return what was taken out, largest first, true mm.
std::vector<LeftOut> leaveOutDeepShadow(const CalibratedPhoto& photo, WindowCrop& crop);

/// Area of the pixels inside, true square millimetres, each with its own scale.
SquareMillimetres insideArea(const CalibratedPhoto& photo, const WindowCrop& crop);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/calibrated_photo.h"

#include <opencv2/core.hpp>

#include <optional>

namespace swarfbook {

/// Light on the card's plane, resampled as seen from straight above. Only areas are measured here;
/// a thing above the plane is displaced (see CameraPlace).
struct TopView {
    cv::Mat light;        ///< CV_32F, green, linear, as a share of what white paper would send
    cv::Rect2d area;      ///< true mm that the view covers
    double pxPerMm = 1.0; ///< of the view

    [[nodiscard]] cv::Point2d onCard(cv::Point2d px) const {
        return {area.x + (px.x + 0.5) / pxPerMm, area.y + (px.y + 0.5) / pxPerMm};
    }
    [[nodiscard]] cv::Point2d inView(cv::Point2d mm) const {
        return {(mm.x - area.x) * pxPerMm - 0.5, (mm.y - area.y) * pxPerMm - 0.5};
    }
    /// A length in millimetres as view pixels.
    [[nodiscard]] double px(double mm) const { return mm * pxPerMm; }
};

/// Resamples `area` (true mm) at `pxPerMm`; pixels outside the photo become white paper. A view
/// coarser than the photo is averaged, not picked.
TopView viewFromAbove(const CalibratedPhoto& photo, const cv::Rect2d& area, double pxPerMm);

/// Where the camera was. Needed for everything that does not lie on the card itself.
///
/// A point `height` above the card appears on the card's plane where the line of sight through it
/// ends: farther from the camera's foot by the factor H / (H - height). So a whole plane at that
/// height appears as a plain enlargement about the foot.
struct CameraPlace {
    cv::Point2d foot;    ///< straight below the camera, true mm on the card
    double height = 1.0; ///< above the card, true mm

    [[nodiscard]] double stretch(double above) const { return height / (height - above); }
    /// True place, seen from straight above, of a point of this height that appears at `seen`.
    [[nodiscard]] cv::Point2d settled(cv::Point2d seen, double above) const {
        return foot + (seen - foot) / stretch(above);
    }
    [[nodiscard]] cv::Point2d seen(cv::Point2d settled, double above) const {
        return foot + (settled - foot) * stretch(above);
    }
};

/// The camera's place from the mapping's homography, whose normalising length is the lens's focal
/// length when the photo states it (a phone's usual main camera otherwise).
/// Source: Hartley & Zisserman, Multiple View Geometry, 2nd ed., section 8.1.1.
/// Checked: tests/magnet/top_view_test.cpp.
CameraPlace cameraPlaceOf(const CalibratedPhoto& photo);

} // namespace swarfbook

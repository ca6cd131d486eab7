// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"

#include <opencv2/core.hpp>

namespace swarfbook {

/// The mapping from the card's plane to the photo: plane homography, then radial distortion.
///
///     x = H * (card mm, 1), dehomogenised           (normalised, undistorted)
///     r2 = |x|^2,  xd = x * (1 + k1 r2 + k2 r2^2)    (Brown's radial model)
///     pixel = centre + focal * xd
///
/// `focal` is a normalising length in pixels, not claimed to be the lens's.
/// Card coordinates are nominal millimetres; true = nominal x print scale.
/// Source: Hartley & Zisserman, Multiple View Geometry, 2nd ed., sections 4.1 and 7.4.
/// Checked: tests/card/plane_mapping_test.cpp.
struct PlaneMapping {
    cv::Matx33d h = cv::Matx33d::eye();
    double focal = 1.0;
    cv::Point2d centre;
    double k1 = 0.0, k2 = 0.0;

    [[nodiscard]] PointInPhoto photoFromCard(PointOnCard p) const;
    [[nodiscard]] PointOnCard cardFromPhoto(PointInPhoto p) const;
    /// Local magnification at p: geometric mean over directions.
    [[nodiscard]] PixelsPerMillimetre scaleAt(PointOnCard p) const;
};

/// Where the camera stood: above which point of the card and how high, nominal millimetres.
/// Takes the mapping's `focal` as the lens's focal length, which is true if the photo's EXIF gave
/// it.
struct CameraStand {
    PointOnCard foot;
    Millimetres height;
};
CameraStand cameraOver(const PlaneMapping& mapping);

/// The mapping of a plane parallel to the card and `depth` nominal millimetres below it: the
/// surface under a frame is a little farther away and, seen at a slant, displaced from the place on
/// the card's plane.
/// Checked: tests/card/plane_mapping_test.cpp.
PlaneMapping mappingBelow(const PlaneMapping& mapping, Millimetres depth);

} // namespace swarfbook

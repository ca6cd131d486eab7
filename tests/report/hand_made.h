// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"
#include "report/report_model.h"

#include <opencv2/core.hpp>

/// Invented photos, measurements and reports for the tests of this folder.
namespace swarfbook::test {

/// How the invented camera sees the card; every test works the mapping out by itself from these.
struct HandMadeCamera {
    cv::Size size{1600, 1200};
    double pxPerMm = 14.0;    ///< along x, in the photo's middle
    double lean = 0.0016;     ///< perspective, per mm in x
    double k1 = 0.02;         ///< radial term, radius in units of `focal`
    double printScale = 1.01; ///< the printed card is 1 % too large
};

/// Where a point of the card's plane, true mm, lies in the photo (OpenCV's pixels), worked out from
/// the camera alone: homography, then x (1 + k1 r^2).
cv::Point2d photoFromTrueMm(const HandMadeCamera& camera, double x, double y);

/// An evenly grey photo.
cv::Mat greyPhoto(const HandMadeCamera& camera, int lightness = 150);

/// A particle with a regular outline of `corners` points and the given radius round a centre.
Particle roundParticle(int id, PointOnCard centre, double radius, ParticleType type,
                       int corners = 40);

/// A measured photo of the `close` card (window 20, 18, 64 x 44 mm nominal) with no particle yet.
Measurement emptyMeasurement(const HandMadeCamera& camera);

/// Sets the counts and the order of its particles.
void countParticles(Measurement& measurement);

/// A whole report with its pictures; everything in it is invented.
ReportModel handMadeModel();

} // namespace swarfbook::test

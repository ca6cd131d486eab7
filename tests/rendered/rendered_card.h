// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/layout.h"
#include "card/plane_mapping.h"
#include "photo/photo.h"

#include <opencv2/core.hpp>

#include <cstdint>
#include <set>
#include <string>
#include <vector>

/// Pictures of a card whose camera, blur and noise are known, to check measurements against the
/// drawing. This uses nothing of the measuring code but its types.
namespace swarfbook::test {

inline constexpr double radians = CV_PI / 180.0; ///< in one degree

/// A pinhole camera with Brown's radial distortion. Space: card millimetres, z away from the camera
/// below the card. Angles in degrees.
struct Camera {
    cv::Size size{2000, 1500};
    double focal = 1500.0; ///< px
    double k1 = 0.0, k2 = 0.0;
    double tilt = 0.0;     ///< of the optical axis from the card's normal
    double azimuth = 0.0;  ///< which way it is tilted: 0 along x, 90 along y
    double roll = 0.0;     ///< about the optical axis
    double distance = 95.; ///< mm along the axis to `aim`
    PointOnCard aim{52.0, 40.0};

    /// Rotation (rows: right, down, forward) and place of the camera.
    [[nodiscard]] cv::Matx33d rotation() const;
    [[nodiscard]] cv::Vec3d place() const;
    [[nodiscard]] PointInPhoto photoFromSpace(const cv::Vec3d& p) const;
    /// The mapping that a perfect fit would find.
    [[nodiscard]] PlaneMapping mapping() const;
};

/// A disc (width 0) or a rectangle on the card, flat and of one colour.
struct Piece {
    PointOnCard centre;
    double length = 1.0;               ///< mm; of a disc the diameter
    double width = 0.0;                ///< mm; 0: a disc
    double turn = 0.0;                 ///< degrees, clockwise as seen
    cv::Vec3d light{0.04, 0.04, 0.04}; ///< linear light B, G, R; 1 is the top of the range
};

/// A round bar or a ball that lies on the card's plane and is seen as the camera sees it.
struct Body {
    PointOnCard touches;   ///< middle of where it touches the plane
    double diameter = 2.0; ///< mm
    double length = 0.0;   ///< mm; 0: a ball
    double turn = 0.0;     ///< degrees, clockwise as seen
    cv::Vec3d light{0.08, 0.08, 0.08};
    cv::Vec3d streak{0.60, 0.60, 0.60}; ///< of the middle fifth of its width, as a lamp is mirrored
};

struct Drawing {
    CardLayout layout;
    std::vector<Body> bodies;  ///< above all pieces
    std::vector<Piece> pieces; ///< the later ones lie above
    std::set<int> covered;     ///< markers hidden under plain paper
    int family = -1;           ///< OpenCV's dictionary; -1: AprilTag 36h11
    double paper = 0.60;       ///< linear light
    double ink = 0.03;
    double table = 0.20;     ///< beside the card
    double inkGrowth = 0.0;  ///< mm, of markers' and slanted squares' outlines
    double bendRadius = 0.0; ///< mm: the card lies on a cylinder, its middle on the plane; 0: flat
    bool bentUp = true;      ///< its ends rise towards the camera; else they drop
    bool bentDown = false;   ///< bent along y in place of x
    std::string serial{};    ///< printed as a code where the layout has its place; "": none
};

struct Exposure {
    double blurAcross = 1.0, blurDown = 1.0; ///< Gaussian sigma, px
    double noise = 1.2;                      ///< sigma, 8-bit codes
    double gain = 1.0;
    std::uint64_t seed = 1;
    double motion = 0.0;     ///< length of an even motion during the exposure, px
    double motionTurn = 0.0; ///< its direction, degrees from the rows, clockwise
    double blurGrowth =
        0.0; ///< Gaussian sigma that is added from the left edge (0) to the right, px
};

/// The light that reaches the camera, area-sampled: to be drawn once for photos that differ in
/// their exposure only.
class View {
  public:
    View(const Drawing& drawing, const Camera& camera);
    /// Blurred, exposed, sRGB-encoded, noisy.
    [[nodiscard]] Photo exposed(const Exposure& exposure) const;

  private:
    cv::Mat_<cv::Vec3f> light_;
    double focal_;
};

/// One photo of what the camera sees.
Photo photograph(const Drawing& drawing, const Camera& camera, const Exposure& exposure);

/// The layout of this name from calibration/reference-card.json, and all of them.
CardLayout layoutNamed(const std::string& name);
std::vector<CardLayout> allLayouts();

/// Worst relative error, percent, of the lengths between neighbouring points of a 5 x 5 grid.
double worstScaleError(const PlaneMapping& found, const PlaneMapping& truth,
                       const CardRect& window);

} // namespace swarfbook::test

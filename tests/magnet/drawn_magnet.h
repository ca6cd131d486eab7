// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/calibrated_photo.h"
#include "particles/magnet_finding.h"

#include <opencv2/core.hpp>

/// Photos of magnets drawn through a pinhole camera, with known truth: white paper, the magnet's
/// wall and face, its shadow, and strands of fuzz as thin cones in space. The truth is worked out
/// from the strands as seen from straight above, without the measuring code.
namespace drawn {

struct Magnet {
    swarfbook::MagnetShape shape = swarfbook::MagnetShape::disc;
    double width = 30.0, height = 30.0; ///< mm; a disc's and ring's diameter is the width
    double hole = 0.0;                  ///< diameter, mm
    double faceHeight = 5.5;            ///< mm
    double turn = 0.0;                  ///< radians
    cv::Point2d centre{52.0, 40.0};
    double cover = 0.5;    ///< share of the face where strands grow; 0: bare
    double strand = 1.5;   ///< mean length, mm
    double lopsided = 0.0; ///< strands to the right are longer by this share, to the left shorter
    double faceLight = 0.15, fuzzLight = 0.02; ///< shares of white paper's light
    cv::Point2d shadow{3.0, 2.0};              ///< of the face's rim, mm on the card
    double umbra = 0.3, penumbra = 0.6;        ///< share of light left; width, mm
    int pieces = 0;                            ///< mirror-bright pieces on the coat
    double pieceSize = 0.9;                    ///< mm
};

struct Camera {
    cv::Point2d foot{50.0, 52.0}; ///< straight below it, mm on the card
    double height = 100.0;        ///< mm
    double tiltDegrees = 8.0;
    cv::Size size{2400, 1800};
};

struct Scene {
    swarfbook::CalibratedPhoto photo;
    double coveredShare = 0.0;       ///< gaps under 0.3 mm bridged
    double overhangMean = 0.0;       ///< furthest strand on every degree or so of the rim, mean, mm
    std::vector<cv::Point2d> pieces; ///< centres, mm
};

/// Empty white paper under the same camera.
swarfbook::CalibratedPhoto paper(const Camera& camera);
Scene draw(const Magnet& magnet, const Camera& camera, unsigned seed);

} // namespace drawn

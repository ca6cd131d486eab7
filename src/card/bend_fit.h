// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/card_bend.h"
#include "card/layout.h"
#include "card/plane_mapping.h"

#include <opencv2/core.hpp>

#include <vector>

namespace swarfbook {

/// One edge point of a fitted flat card.
struct FittedPoint {
    cv::Vec<double, 11> row; ///< how its distance changes with the flat card's parameters, the last
                             ///< one an outward growth in mm; px
    double distance = 0.0;   ///< from its edge, outward, px
    int edge = 0;
    PointOnCard at;      ///< nominal mm
    PointOnCard outward; ///< the edge's normal on the card
};

/// The flat fit that a bend is sought in.
struct FlatFit {
    std::vector<FittedPoint> points;
    cv::Matx<double, 11, 11> prior; ///< what its normal equations hold besides the points'
    CameraStand camera;
    CardRect window;
};

/// The part of a flat card's remaining offsets that a bend explains.
struct BendFit {
    Millimetres rise, riseU;     ///< see CardBend; nominal mm
    double chiSquare = 0.0;      ///< chi-square of its two terms: over 13.8 is chance in 1 of 1000
    double lengthUPercent = 0.0; ///< rms over the window by which heights change lengths
};

/// Fits heights z = a x^2 + b x y + c y^2 (about the window's middle) beside the flat card's own
/// parameters, robustly (Huber) and to first order: a place z above the plane appears displaced
/// from the camera's foot by z over the camera's height. A lens makes a bend that is alike in all
/// directions, so the bend is taken from the difference between directions, since paper does not
/// stretch. Of the two cylinders that explain it, takes the one that rises more over the window.
/// Source: similar triangles; Frisch-Waugh partialling out. Checked: tests/card/card_bend_test.cpp
/// (cards drawn on cylinders of known radius).
BendFit fitBend(const FlatFit& flat);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/candidate.h"

#include <opencv2/core.hpp>

namespace swarfbook {

/// How much a piece outshines white paper under the same light.
struct Glint {
    double value = 0.0;   ///< light of its brightest part / light of the card's white there
    bool atLeast = false; ///< that part is at the top of the photo's range: it may be brighter
};

/// The glint of a piece.
///
/// Physics: matte matter sends light out evenly and absorbs a part of it, so that under any lamp it
/// sends no more than white paper beside it does (glint up to about 1.1: paper absorbs a little
/// too). A facet that turns the right way shows the lamp itself, weakened by Fresnel's reflectance
/// of its material alone, and a lamp is many times brighter than paper that it lights. Glint above
/// 1.2 therefore says that something is smooth, as metal is, and wet plastic and oil too; it does
/// not say which. Glint below it says nothing: the facet may turn another way.
///
/// The brightest part is the brightest twentieth of the piece's pixels, at least one; its value is
/// where that twentieth begins (95th percentile), so that one noisy pixel does not decide. Light is
/// linear (IEC 61966-2-1 undone), evened over 3 x 3 px, each channel over the card's white in that
/// channel at the piece's middle, then (B + 2 G + R) / 4. Exposure and white balance multiply the
/// linear light of piece and paper alike and cancel: within 5 % for exposures that put the card's
/// white between the codes 80 and 250, as long as no part is clipped. Where more than half of
/// the brightest part has a channel at code 250 or more, `atLeast` is true.
/// @param mask  CV_8U, of the size of `bgr`: the piece
/// @param white linear light (B, G, R) of the card's white at the piece, each above 0
/// Throws std::logic_error for an empty mask.
/// Checked: tests/debris/glint_test.cpp (three exposures, two white balances, drawn light).
Glint glintOf(const cv::Mat& bgr, const cv::Mat& mask, const cv::Vec3d& white);
/// The same of a piece in the window.
Glint glintOf(const CalibratedPhoto& photo, const WindowCrop& crop, const Candidate& piece);

/// Share of light that a smooth metal sends back at normal incidence (Fresnel), by its refractive
/// index n and its extinction coefficient k: ((n - 1)^2 + k^2) / ((n + 1)^2 + k^2).
/// Throws std::logic_error for a negative value. Checked: tests/debris/glint_test.cpp.
double fresnelReflectance(double n, double k);

} // namespace swarfbook

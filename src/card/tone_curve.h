// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/find_card.h"

#include <opencv2/core.hpp>

#include <optional>
#include <vector>

namespace swarfbook {

/// How a camera bent the codes of a photo beyond sRGB, with black and white kept: bent(c) = (1 -
/// contrast) c^power + contrast (3 c^2power - 2 c^3power), codes 0 to 1. Contrast over 0 darkens
/// shadows and brightens lights, as scene modes and "vivid" settings do.
struct ToneCurve {
    double contrast = 0.0; ///< -0.6 to 1
    double power = 1.0;    ///< 0.7 to 1.43

    [[nodiscard]] double bent(double code) const;
    /// The code, 0 to 255, that a photo without the bend would have, for each of its codes.
    [[nodiscard]] cv::Mat straightened() const;
};

/// A grey step of the card as a photo shows it.
struct GreyStep {
    double ink = 0.0;   ///< black ink share, over 0
    double code = 0.0;  ///< green, 0 to 1
    double white = 0.0; ///< code that bare paper has there
};

/// Reads the grey steps against the paper beside them. Steps at the ends of the code range, out of
/// the picture or in uneven light are left out.
std::vector<GreyStep> readGreySteps(const cv::Mat& bgr, const CardSighting& card);

/// The bend that the grey steps show. The steps' own lightness differs from printer to printer, so
/// a bend that a printer could cause does not count. A bend is given only if the steps lie far
/// outside the range of printers and plain phones, and one curve brings back all of them but one at
/// most.
/// @return nullopt if there is no such bend, or fewer than four steps.
/// Checked: tests/card/tone_curve_test.cpp (photos bent by known curves).
std::optional<ToneCurve> toneCurveOf(const std::vector<GreyStep>& steps);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/blank_fit.h"
#include "debris/candidate.h"
#include "debris/contrast.h"

#include <opencv2/core.hpp>

namespace swarfbook {

/// A blank as it would look from where the measured photo was taken.
struct BlankPicture {
    cv::Mat bgr;     ///< CV_8UC3, of the crop's size
    cv::Mat covered; ///< CV_8U, 255 where the blank shows the surface
};

/// Brings the blank's picture into the pixels of the measured photo's crop.
BlankPicture blankUnder(const SurfacePhoto& measured, const SurfacePhoto& blank,
                        const BlankFit& fit);

/// The surface beneath every pixel, now that a blank shows it.
struct BlankSurface {
    ContrastField field; ///< background where the blank has marks: whatever of the photo they
                         ///< explain; contrast never above what it was without the blank
    cv::Mat explained;   ///< CV_8U, 255 where something stood out and the blank shows it too
};

/// Takes out of a contrast field what the blank shows as well.
///
/// The blank's light is brought to the photo's by the ratio of the two backgrounds, a median over
/// 6 mm. Where a mark stands out on it, the photo's pixel is explained as far as it lies between
/// the surface around and the mark within 1.5 pixels, half again as strong at the most: light from
/// elsewhere makes marks stronger. Elsewhere nothing changes, and nothing ever stands out more.
/// Checked: tests/debris/blank_surface_test.cpp.
BlankSurface surfaceByBlank(const WindowCrop& crop, const ContrastField& field,
                            const BlankPicture& blank);

/// The share of a candidate's standing-out pixels that the blank explains, 0 to 1.
double shareExplained(const Candidate& candidate, const ContrastField& seen,
                      const BlankSurface& surface);

} // namespace swarfbook

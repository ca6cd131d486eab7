// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/candidate.h"
#include "debris/clean_reference_fit.h"
#include "debris/contrast.h"

#include <opencv2/core.hpp>

namespace swarfbook {

/// A clean reference as it would look from where the measured photo was taken.
struct CleanReferencePicture {
    cv::Mat bgr;     ///< CV_8UC3, of the crop's size
    cv::Mat covered; ///< CV_8U, 255 where the clean reference shows the surface
};

/// Brings the clean reference's picture into the pixels of the measured photo's crop.
CleanReferencePicture cleanReferenceUnder(const SurfacePhoto& measured,
                                          const SurfacePhoto& cleanReference,
                                          const CleanReferenceFit& fit);

/// The surface beneath every pixel, now that a clean reference shows it.
struct CleanReferenceSurface {
    ContrastField field; ///< background: where the clean reference has marks, as much of the photo
                         ///< as they explain; contrast: never more than without the clean reference
    cv::Mat
        explained; ///< CV_8U, 255 where something stood out and the clean reference shows it too
};

/// Removes from a contrast field what the clean reference shows as well.
///
/// The clean reference's light is brought to the photo's by the ratio of the two backgrounds, a
/// median over 6 mm. Where a mark stands out on it, it explains the photo's pixel as far as this
/// lies between the surface around and the mark within 1.5 pixels, made stronger by half at most,
/// because light from another side makes marks stronger. Elsewhere nothing changes, and contrast
/// never increases. Checked: tests/debris/clean_reference_surface_test.cpp.
CleanReferenceSurface surfaceByCleanReference(const WindowCrop& crop, const ContrastField& field,
                                              const CleanReferencePicture& cleanReference);

/// The share of a candidate's standing-out pixels that the clean reference explains, 0 to 1.
double shareExplained(const Candidate& candidate, const ContrastField& seen,
                      const CleanReferenceSurface& surface);

} // namespace swarfbook

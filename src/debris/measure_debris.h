// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/result.h"
#include "card/calibrated_photo.h"
#include "debris/candidate.h"
#include "debris/clean_reference_surface.h"
#include "debris/contact_trust.h"
#include "debris/detection_limit.h"
#include "debris/piece_network.h"
#include "debris/piece_trust.h"
#include "debris/second_light.h"
#include "debris/window_crop.h"
#include "particles/particle.h"

#include <opencv2/core.hpp>

#include <optional>

namespace swarfbook {

/// What pieces are found and judged by.
struct DebrisModels {
    PieceNetwork pieces;
    ContactTrust contacts;
    PieceTrust trust;
    DetectionModel detection;

    /// Loads pieces.onnx, contact-trust.json, piece-trust.json and detection.json from `folder`.
    /// Throws ToolError.
    static DebrisModels load(const std::filesystem::path& folder);
};

/// How a window is to be measured.
struct DebrisOptions {
    bool onWhiteCard = true; ///< the card's own white window; false: cut out, the surface shows
    cv::Mat excluded;        ///< CV_8U of the crop's size, 255 where a magnet lies; may be empty
    std::optional<CleanReferencePicture>
        cleanReference{}; ///< the same surface cleaned, where a photo of it is given
    std::optional<SecondLight>
        secondLight{}; ///< the same scene in other light, where a photo of it is given
};

/// The same photo with its surface lowered under the frame, by the thickness of card stock.
CalibratedPhoto underFrame(CalibratedPhoto photo);

/// Cuts out the window and leaves glare and deep shadow out.
/// Refuses glare or too_dark where less than 60 % of the window is left to measure.
Result<PreparedWindow> prepareWindow(const CalibratedPhoto& photo, bool onWhiteCard);

/// Finds, outlines, measures and judges what lies in the window, counts it by size class.
///
/// @return particles of at least the smallest size that the photo resolves, largest first, and the
///         size floor from which hardly any is missed. The longest side carries the correction of
///         PieceTrust; standard uncertainties hold outline and piece (from PieceTrust), a third of
///         a pixel, the scale of the fit and of the print. What PieceTrust takes for no debris is
///         left out. What a clean reference shows as well is no debris; how many that were stands
///         in `alsoOnBlank`. With a second light the pieces are outlined in what both photos show
///         together, and their types rest on both (second_light.h). Where the photo itself says
///         that its counts would be wrong, `shownOnly` is set and nothing is counted
///         (photo_trust.h).
/// Checked: tests/debris/measure_debris_test.cpp (drawn scenes), tests/blackbox (photos with
/// truth).
DebrisFinding measureDebris(const CalibratedPhoto& photo, const PreparedWindow& window,
                            const DebrisModels& models, const DebrisOptions& options);

/// One candidate's outline as a particle, without its type; `correction` goes into the Ferets.
Particle particleFromOutline(const CalibratedPhoto& photo, const WindowCrop& crop,
                             const Candidate& candidate, const SizeCorrection& correction);

} // namespace swarfbook

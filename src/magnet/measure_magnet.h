// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/calibrated_photo.h"
#include "debris/window_crop.h"
#include "magnet/magnet_finding.h"

#include <opencv2/core.hpp>

#include <string>
#include <variant>

namespace swarfbook {

/// What is known of the photo besides its calibration.
struct MagnetOptions {
    /// EXIF 35 mm equivalent focal length, 0 when the file tells none; a phone's usual main camera
    /// is taken then and the camera's distance is less sure.
    double focalLength35Mm = 0.0;
};

/// A magnet found in the window.
struct MagnetReading {
    MagnetFinding finding;
    /// CV_8U, of the crop's size, 255 where magnet, fuzz or their deep shadow hides the paper: what
    /// lies there is no debris on the paper.
    cv::Mat region;
    Measured<Millimetres> faceHeight;   ///< of the magnet's face above the card
    Measured<Millimetres> outlineReach; ///< how far the seen rim of the coat lies past the outline
};

/// Why no magnet was measured: what was seen and what to do about it, a sentence each.
struct NoMagnet {
    std::string detail;
    std::string advice;
};

/// Finds the magnet that lies on the card's white window, its outline, its coat, and the slivers in
/// the coat.
///
/// @return finding in true millimetres of the card, as seen from straight above: the magnet's face
///         lies nearer to the camera than the card and is brought back by the estimated height.
///         NoMagnet where nothing dark of at least 8 mm across lies wholly in view.
///         Throws std::logic_error if the crop is empty; reads no file; thread-safe.
///
/// Covered share: the face's part under fuzz, gaps narrower than 0.3 mm between tufts counted as
/// covered. Overhang: how far the fuzz reaches past the magnet's outer outline, on steps of equal
/// length round the rim.
/// Checked: tests/magnet/measure_magnet_test.cpp (drawn magnets; photos with truth).
std::variant<MagnetReading, NoMagnet>
measureMagnet(const CalibratedPhoto& photo, const WindowCrop& crop, const MagnetOptions& options);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/calibrated_photo.h"
#include "debris/window_crop.h"
#include "particles/magnet_finding.h"

#include <opencv2/core.hpp>

#include <string>
#include <variant>
#include <vector>

namespace swarfbook {

/// A magnet found in the window.
struct MagnetReading {
    MagnetFinding finding;
    /// CV_8U, of the crop's size, 255 where there is no paper to find debris on: magnet, fuzz (with
    /// 1 mm round it for strands' ends and their shadows), a ring's hole and deep shadow.
    cv::Mat region;
    Measured<Millimetres> outlineReach; ///< from the magnet's outline to the seen rim of the coat
    std::vector<std::string> cautions;  ///< what was said of the magnet and does not go with it
};

/// Why no magnet was measured: what was seen and what to do about it, a sentence or two each.
struct NoMagnet {
    std::string detail;
    std::string advice;
};

using MagnetSearch = std::variant<MagnetReading, NoMagnet>;

/// Finds the magnet that lies on the card's white window, its outline, its coat, and the slivers in
/// the coat.
///
/// @return finding in true millimetres as seen from straight above: the magnet's face is nearer to
///         the camera than the card, which is corrected by its height. That follows from the size
///         that was said, else it is estimated (finding.height says which). Only the shapes
///         drawn on the photo (finding.outlines, the slivers' outlines) stay where they appear on
///         the card's plane. NoMagnet if nothing dark of at least 8 mm across lies in the window,
///         or if it reaches out of sight. Throws std::logic_error if the crop is empty; reads no
///         file; thread-safe.
///
/// Covered share: the face's part under fuzz, gaps narrower than 0.3 mm between tufts counted as
/// covered. Overhang: how far the fuzz reaches past the magnet's outer outline, the furthest on
/// every 0.15 mm of the rim. The outline is lost if the coat is over 3 mm thick at the rim, or if
/// neither a bare stretch nor the strands show where the rim is.
/// @param known  what was said of the magnet: it decides between disc and block where fuzz leaves
///               both open. What does not go with the photo is not used; a caution says so.
/// Checked: tests/magnet/measure_magnet_test.cpp (drawn magnets), tests/magnet/known_size_test.cpp,
///          tests/magnet/photos_with_truth_test.cpp.
MagnetSearch measureMagnet(const CalibratedPhoto& photo, const WindowCrop& crop,
                           const KnownMagnet& known = {});

} // namespace swarfbook

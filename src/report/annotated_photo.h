// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "assess/measurement.h"

#include <opencv2/core.hpp>

#include <optional>
#include <string>

namespace swarfbook {

/// Shorter pieces get a letter or a tick beside them instead of an outline.
inline constexpr Millimetres outlinedFrom(0.3);

struct AnnotationOptions {
    /// First line of the legend; if "", it is made of place and capture date.
    std::string title;
    /// If given: shows not the photo as taken but the window alone, seen straight from above, at
    /// this scale in true millimetres. Pictures made at one scale can be laid side by side.
    std::optional<PixelsPerMillimetre> straightenedAt;
    /// Only for the view from above: margin round the window.
    Millimetres margin{1.0};
    /// Outlines, letters, hatching; without them the bare picture, its window and its legend.
    bool marks = true;
    bool letters = true; ///< with marks: draws letters beside the pieces
    /// The band below the picture: scale bar, types with counts, size limit, parts left out.
    bool legend = true;
};

/// The photo with its measured pieces: outlines by type (line rhythm, lightness and letter, so that
/// it can be printed grey), a letter or a tick instead of an outline for a piece under 0.3 mm,
/// which an outline would hide, parts left out hatched, the window's edge, the magnet's outline and
/// slivers; below it a legend with a scale bar. Line and letter sizes follow the picture's: printed
/// 180 mm wide, across an A4 page, capitals are 1.5 mm high.
///
/// @param bgr          8-bit BGR, upright: the photo that was measured. Hand it over (std::move) if
///                     it is not needed afterwards, so that a large photo is not held twice.
/// @param measurement  of that photo, not refused, with the card's mapping.
/// @return 8-bit BGR; the photo's own pixels keep their place; the legend is added below.
/// Throws std::logic_error if the measurement is refused or of another photo's size.
/// Checked: tests/report/annotated_photo_test.cpp (outlines lie where the mapping says).
cv::Mat annotatedPhoto(cv::Mat bgr, const Measurement& measurement,
                       const AnnotationOptions& options = {});

struct CropOptions {
    Millimetres field{4.0};        ///< side of the square seen
    PixelsPerMillimetre scale{60}; ///< of the picture made
    bool outline = true;           ///< the piece's outline, thin
    bool ring = false;             ///< a circle round the piece, clear of it
    bool bar = true;               ///< a scale bar below
};

/// One piece seen straight from above in the middle of a square field. All
/// crops with the same options share one scale and one size.
///
/// Throws as annotatedPhoto. Checked: tests/report/annotated_photo_test.cpp.
cv::Mat croppedPiece(const cv::Mat& bgr, const Measurement& measurement, const Particle& particle,
                     const CropOptions& options = {});

/// Height in pixels of the band with the scale bar that croppedPiece adds below its square.
int cropBandHeight(const CropOptions& options);

} // namespace swarfbook

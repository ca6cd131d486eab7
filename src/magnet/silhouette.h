// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/top_view.h"
#include "magnet/outline_shape.h"
#include "particles/magnet_finding.h"

#include <opencv2/core.hpp>

#include <optional>
#include <vector>

namespace swarfbook {

/// Magnet and coat against the paper, as the camera saw them. All masks are CV_8U of the view's
/// size; shadows, however deep, are not part of them.
struct Silhouette {
    cv::Mat body;     ///< magnet with its coat, the hole of a ring left out
    cv::Mat whole;    ///< the same with the hole filled
    cv::Mat tips;     ///< `whole` and the thin ends of strands beyond it
    cv::Mat hole;     ///< paper seen through a ring; empty (no pixel set) if there is none
    cv::Mat logLight; ///< see logLightOf()
};

/// Natural logarithm of a view's light, CV_32F; what is darker than 0.004 of white paper counts as
/// that light.
cv::Mat logLightOf(const TopView& view);

/// Where a magnet may lie: inside the window and a little round it, up to the print.
struct Ground {
    cv::Mat allowed;  ///< CV_8U, 255 where a magnet may lie
    cv::Mat inWindow; ///< CV_8U, 255 inside the window, a millimetre and more from its line
    cv::Mat line;     ///< CV_8U, 255 near the window's printed line
};

/// The ground of a view: `window` in true mm.
Ground groundOf(const TopView& view, const cv::Rect2d& window);

/// The part of the window (true mm) worth a close look: round the largest dark object of at least
/// 8 mm across. nullopt if there is none.
std::optional<cv::Rect2d> findDarkObject(const TopView& coarse, const Ground& ground);

/// The face (CV_8U) that clumps of fuzz stand round with gaps of up to 6 mm between them, and the
/// clumps; empty if they enclose less than six tenths of what is darker than paper.
cv::Mat faceBetweenClumps(const TopView& view, const Ground& ground);

/// Separates magnet and coat from paper and shadow.
///
/// The coat is darker than any shadow on white paper, or has edges as sharp as the photo's, which a
/// shadow with its soft edge has not. From there the rim is where the light falls to half of the
/// darkest paper nearby; thin strands beyond it show as dark lines against their surroundings.
/// nullopt if nothing of at least 8 mm across is left.
/// @param face  CV_8U, where the magnet's face is known to be; empty if it is not known. What is
///              dark or sharp and touches it belongs to the magnet.
/// Checked: tests/magnet/measure_magnet_test.cpp (drawn magnets with shadows).
std::optional<Silhouette> silhouetteOf(const TopView& view, const Ground& ground,
                                       const cv::Mat& face = {});

/// The silhouette of what lies within a known outline.
Silhouette silhouetteWithin(const TopView& view, const OutlineShape& shape);

/// Points of the silhouette's outer edge where `inside` (CV_8U) is set, at most 600, mm on the
/// card.
std::vector<cv::Point2d> rimPoints(const TopView& view, const Silhouette& silhouette,
                                   const cv::Mat& inside);

} // namespace swarfbook

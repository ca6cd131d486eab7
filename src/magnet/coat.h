// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "magnet/outline_shape.h"
#include "magnet/silhouette.h"

#include <opencv2/core.hpp>

namespace swarfbook {

/// What of a magnet's face is fuzz.
struct Coat {
    cv::Mat bareLevel;    ///< CV_32F, light that the bare face sends or would send there
    cv::Mat smooth;       ///< CV_32F, the view's light after a blur of 0.04 mm, 0.1 mm where noisy
    cv::Mat bare;         ///< CV_8U, surely bare face: smooth, and as light as its bare patches
    double limit = 0.7;   ///< share of the bare level below which fuzz is told
    cv::Mat fuzz;         ///< CV_8U, below that limit
    bool anyBare = false; ///< patches of bare face were found to tell by
};

/// Tells fuzz from bare face by the light of the bare patches nearby: a bare face is smooth, fuzz
/// is not, and a polished face mirrors now a lamp, now the dark room. Where no patch is bare, the
/// brightest places (0.3 mm and more) within 2.5 mm count, but never less than half of what the
/// brightest of all send.
/// Checked: tests/magnet/coat_test.cpp (even, dark and mirroring faces), measure_magnet_test.cpp.
Coat coatOf(const TopView& view, const Silhouette& silhouette);

/// Share of `face` (CV_8U) under fuzz, gaps narrower than 0.3 mm bridged, and its uncertainty
/// from where the limit between fuzz and face is drawn.
struct CoveredShare {
    double value = 0.0, uncertainty = 0.0;
};
CoveredShare coveredShareOf(const TopView& view, const Coat& coat, const Silhouette& silhouette,
                            const cv::Mat& face);

/// How far the fuzz reaches past the outline, all round the rim, mm.
struct Overhang {
    double mean = 0.0, p95 = 0.0, most = 0.0;
};

/// What the overhang is told by.
struct OverhangScene {
    CameraPlace camera;
    OutlineShape outline;    ///< settled: as seen from straight above, true mm
    double faceHeight = 0.0; ///< mm
    double tipHeight = 0.0;  ///< mm, of the strands' ends beyond the rim
};

/// The furthest fuzz on every 0.15 mm of the rim; where nothing passes the outline as seen at the
/// face's height, it is none.
Overhang overhangOf(const TopView& view, const Silhouette& silhouette, const Ground& ground,
                    const OverhangScene& scene);

} // namespace swarfbook

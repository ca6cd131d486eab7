// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/calibrated_photo.h"
#include "card/top_view.h"
#include "particles/particle.h"

#include <optional>
#include <vector>

namespace swarfbook {

/// Where pieces may lie.
struct SliverScene {
    cv::Mat coat; ///< CV_8U, magnet and fuzz, well within their rim
    cv::Mat face; ///< CV_8U, the face, well within its rim: beyond it paper shows between strands
    CameraPlace camera;
    double above = 0.0; ///< height at which pieces lie, mm above the card
};

/// Pieces on the coat that shine: metal facets that send at least half of what white paper would,
/// which neither fuzz nor a magnet's face does. Beyond the face they must outshine paper. What
/// mirrors no lamp stays unseen, so that the count is a lower bound. Under a low lamp the strands
/// themselves shine and look like slivers: then nothing distinguishes them.
///
/// @return nullopt where the strands shine; else pieces at least `floor` long, largest first;
/// centre and lengths as seen from straight above,
///         the outline as it appears on the card's plane, for drawing.
/// Checked: tests/magnet/measure_magnet_test.cpp (drawn pieces, drawn shining
/// strands).
std::optional<std::vector<Particle>> sliversOf(const TopView& view, const SliverScene& scene,
                                               Millimetres floor);

} // namespace swarfbook

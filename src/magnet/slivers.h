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
    cv::Mat bare; ///< CV_8U, where the face is not under fuzz
    cv::Mat bareLevel; ///< CV_32F, light of the bare face there
    CameraPlace camera;
    double above = 0.0; ///< height at which pieces lie, mm above the card
};

/// Shiny pieces on the coat: metal facets at least half as bright as white paper, which neither
/// fuzz nor a magnet's face is. Beyond the face they must be brighter than paper. A piece that
/// mirrors no lamp is not seen, so the count is a minimum. Under a low lamp the strands themselves
/// shine and cannot be distinguished from slivers.
///
/// @return nullopt if the strands shine; else pieces at least `floor` long, largest first; centre
/// and lengths as seen from straight above,
///         the outline as it appears on the card's plane, for drawing. A piece that ends in the
///         fuzz may reach on under it: its size is at least what shows (Particle::leastSize).
/// Checked: tests/magnet/measure_magnet_test.cpp (drawn pieces, drawn shining
/// strands).
std::optional<std::vector<Particle>> sliversOf(const TopView& view, const SliverScene& scene,
                                               Millimetres floor);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/magnet_finding.h"

namespace swarfbook {

/// From where on a magnet gathers no more; settings of models/suggestion.json.
struct FullMagnet {
    double share = 1.0;   ///< of its face under fuzz
    Millimetres overhang; ///< fuzz past the rim, 95th percentile
};

/// Whether the magnet gathers no more: its outline is lost, fuzz reaches far past its rim, or its
/// whole face is covered. From then on fuzz shows a least amount and no rate.
/// Checked: tests/judgement/coat_of_magnet_test.cpp.
inline bool isFull(const MagnetFinding& magnet, const FullMagnet& full) {
    return magnet.outlineLost || magnet.overhangP95 >= full.overhang ||
           magnet.coveredShare.value.value() >= full.share;
}

} // namespace swarfbook

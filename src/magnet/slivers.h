// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/calibrated_photo.h"
#include "debris/particle.h"
#include "magnet/silhouette.h"
#include "magnet/top_view.h"

#include <vector>

namespace swarfbook {

/// Pieces on the coat that shine: metal facets that send at least half of what white paper would,
/// which neither fuzz nor a magnet's face does. What mirrors no lamp stays unseen, so that the
/// count is a lower bound.
///
/// @param above  height at which they lie, mm above the card.
/// @return at least `floor` long, largest first; centre and lengths as seen from straight above,
///         the outline as it appears on the card's plane, for drawing.
/// Checked: tests/magnet/slivers_test.cpp (drawn pieces).
std::vector<Particle> sliversOf(const TopView& view, const Silhouette& silhouette,
                                const CameraPlace& camera, double above, Millimetres floor);

} // namespace swarfbook

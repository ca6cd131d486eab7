// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "magnet/outline_shape.h"
#include "magnet/silhouette.h"

namespace swarfbook {

/// Whether the magnet itself, without its fuzz, reaches where nothing was looked at, as far as that
/// can be seen: the outline that fits lies there; or more than 15 % of the coat's rim does; or
/// more than a few strands do and the outline ends along the window's printed line. Less are
/// strands that hang over the print on a magnet that overlaps the window's edge a little. Ours.
/// Checked: tests/magnet/hard_light_test.cpp (drawn magnets over the window's edge),
/// measure_magnet_test.cpp.
bool reachesOut(const TopView& view, const Ground& ground, const Silhouette& silhouette,
                const OutlineShape& seen);

} // namespace swarfbook

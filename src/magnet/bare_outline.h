// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/top_view.h"
#include "magnet/outline_shape.h"
#include "magnet/silhouette.h"

#include <optional>

namespace swarfbook {

/// The outline (mm on the card, as it appears) of a magnet whose rim is bare along a tenth of its
/// length or more, from edges as sharp as the photo, however weak: a bare face is no darker than
/// its own shadow. Clumps of fuzz may stand out from the rest of the rim.
/// nullopt if the edges make no disc or block of at least 8 mm across within the window.
/// Checked: tests/magnet/few_clumps_test.cpp (drawn magnets with a few clumps).
std::optional<OutlineShape> bareOutlineOf(const TopView& view, const Ground& ground);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/top_view.h"
#include "magnet/coat.h"
#include "magnet/silhouette.h"

#include <optional>

namespace swarfbook {

struct FoundMagnet {
    Silhouette silhouette;
    Coat coat;
};

/// Finds magnet and coat: a furred one by its dark or sharp outline, one with a few clumps of fuzz
/// by the bare rim between them or by what the clumps stand round, a bare one by its rim alone.
/// Shadows are left out. nullopt if there is no magnet.
/// Checked: tests/magnet/measure_magnet_test.cpp, tests/magnet/few_clumps_test.cpp,
/// tests/magnet/hard_light_test.cpp (drawn magnets
/// from bare to furred).
std::optional<FoundMagnet> findMagnet(const TopView& view, const Ground& ground);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <vector>

namespace swarfbook {

/// Light along a line from inside a thing outward, evenly spaced.
struct EdgeProfile {
    std::vector<double> light; ///< linear
    double step = 1.0;         ///< between samples, any unit of length
    double edgeWidth = 1.0;    ///< 10-90 % width of a sharp edge in this photo, same unit
};

/// The outermost sharp step of a profile.
struct SharpEdge {
    double at = 0.0;         ///< from the profile's start, where the light is half way
    bool secondStep = false; ///< the next step inward is of the same sign and nearly a third as
                             ///< high: the outermost one may be the border of a hard shadow
};

/// Finds the outermost step that is as sharp as the card's edges and at least half as strong as the
/// strongest, and where it is half way between the light just outside and just inside it. A soft
/// shadow that ends there only shifts the level outside.
/// @return nothing when there is no such step, or no room on both sides to read the levels.
/// Checked: tests/gauge/sharp_edge_test.cpp (Gaussian edges of known place).
std::optional<SharpEdge> outermostSharpEdge(const EdgeProfile& profile);

} // namespace swarfbook

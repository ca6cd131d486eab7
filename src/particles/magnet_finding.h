// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"
#include "particles/particle.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace swarfbook {

enum class MagnetShape { ring, disc, block };
/// "ring", "disc", "block".
std::string_view magnetShapeName(MagnetShape shape);
/// Inverse; throws std::invalid_argument.
MagnetShape magnetShapeFromName(std::string_view name);

/// Between these a magnet is measured: no magnet of a pan is smaller (common practice, no source),
/// and the card's window is 64 mm wide.
inline constexpr Millimetres smallestMagnet{8.0}, largestMagnet{64.0};

/// What was said of a magnet before it was measured.
struct KnownMagnet {
    std::optional<MagnetShape> shape;
    std::optional<Millimetres> size; ///< diameter, of a block its longer side
};

/// What the height of a magnet's face above the card rests on: the usual height of pan magnets, the
/// wall that a ring's hole shows, or the magnet's size as it was typed in.
enum class HeightFrom { usual, hole, size };
/// "usual", "hole", "size".
std::string_view heightFromName(HeightFrom from);
/// Inverse; throws std::invalid_argument.
HeightFrom heightFromOfName(std::string_view name);

struct MagnetHeight {
    Measured<Millimetres> value;
    HeightFrom from = HeightFrom::usual;
};

/// The coat on a magnet: the share of the face under fuzz as seen from above, and how far the fuzz
/// reaches past the magnet's outline all round the rim.
struct MagnetFinding {
    MagnetShape shape = MagnetShape::disc;
    std::vector<Millimetres> size; ///< ring: outer, inner diameter; disc: diameter; block: w, h
    Measured<Quantity<struct ShareTag>> coveredShare; ///< 0 to 1
    Millimetres overhangMean, overhangP95, overhangMax;
    /// Standard, of each of the three, from where the magnet's rim and the strands' ends may lie;
    /// older findings lack it.
    std::optional<Millimetres> overhangUncertainty{};
    bool outlineLost = false;      ///< fuzz hides the magnet's own outline
    std::vector<Particle> slivers; ///< pieces on the coat that shine: a lower bound
    bool sliversTold = true;       ///< false: the strands shine as well, so slivers cannot be seen
    std::optional<MagnetHeight> height{}; ///< of its face above the card; older findings lack it
    /// The magnet's own outline as closed polygons, true mm (ring: outer, then inner edge), for
    /// drawing; empty when it was not kept.
    std::vector<std::vector<PointOnCard>> outlines;
};
using Share = Quantity<struct ShareTag>;

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"
#include "card/calibrated_photo.h"

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace swarfbook {

/// Things of known size that a shop has: the round end of a drill, a piece of wire, a feeler
/// strip, a bearing ball.
enum class StandardKind { shank, wire, strip, ball };
/// "shank", "wire", "strip", "ball".
std::string_view standardName(StandardKind kind);
/// Inverse of standardName; throws std::invalid_argument.
StandardKind standardFromName(std::string_view name);

/// The thing in the window, as the user describes it.
struct CheckStandard {
    Measured<Millimetres> size;           ///< diameter, or a strip's width
    std::optional<StandardKind> kind;     ///< nullopt: decided by what the photo shows
    std::optional<Millimetres> thickness; ///< of a strip; nothing: 0 to 1 mm
};

/// One part of a reading's uncertainty.
struct UncertaintyPart {
    std::string from; ///< "edges", "print scale", ...
    Millimetres standardUncertainty;
};

/// What the photo shows of the thing.
struct StandardReading {
    std::optional<StandardKind> kind; ///< nothing: a bar, not known whether round or flat
    Measured<Millimetres> size;       ///< as it is: its height above the card taken into account
    Millimetres seen;                 ///< as it appears on the card's plane
    PointOnCard centre;               ///< true mm
    Millimetres length;               ///< of a bar, as far as it was used; of a ball 0
    int edgePoints = 0;
    std::vector<UncertaintyPart> parts; ///< their squares add up to the standard uncertainty's
};

/// No reading: what was seen and what to do.
struct StandardNotRead {
    std::string detail, advice;
};
using StandardSearch = std::variant<StandardReading, StandardNotRead>;

/// Finds the thing of known size in the card's window and reads its size from its own sharp edges,
/// using the known size only to find which of the things in the window is meant.
///
/// Edges are read along profiles in the photo's own pixels: the outermost sharp step, half way
/// between the light just outside and just inside it. Two lines (a bar) or a cone of sight (a ball)
/// are fitted to them on the card's plane; the thing's own height, known once its size is, is taken
/// into account by the camera's place.
/// No reading: nothing near this size, several things, cut by a hard shadow, bent or tapered,
/// thinner than 2.5 edge widths.
/// Throws std::logic_error for a size that is not positive.
/// Checked: tests/gauge/check_standard_test.cpp (bars and balls drawn by a pinhole camera).
StandardSearch readCheckStandard(const CalibratedPhoto& photo, const CheckStandard& thing);

/// Whether a reading agrees with the known size: their difference within twice the standard
/// uncertainty of both together (ISO/IEC Guide 98-3, coverage factor 2).
struct Conformity {
    Millimetres off;      ///< reading less known
    Millimetres expanded; ///< 2 standard uncertainties of the difference
    [[nodiscard]] bool agrees() const;
};
Conformity conformityOf(const StandardReading& reading, const CheckStandard& thing);

} // namespace swarfbook

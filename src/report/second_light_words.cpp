// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/second_light_words.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

/// Each photo names a type, and not the same one.
bool differ(const Particle& piece) {
    return piece.twoLights && piece.twoLights->first != ParticleType::unidentified &&
           piece.twoLights->second != ParticleType::unidentified &&
           piece.twoLights->first != piece.twoLights->second;
}

} // namespace

std::string secondLightLine(const Measurement& measurement) {
    if (!measurement.secondLight || !measurement.debris)
        return "";
    const SecondLightUse& use = *measurement.secondLight;
    if (!use.used)
        return "  second light: the second photo was not used\n";
    const auto& pieces = measurement.debris->particles;
    const auto differing = std::count_if(pieces.begin(), pieces.end(), differ);
    return fmt::format("  second light: {} piece{} found in what both photos show together; their "
                       "light changes by {:.0f} % of the card's white (median); the photos name "
                       "different types for {}\n",
                       use.piecesInBoth, use.piecesInBoth == 1 ? "" : "s", 100.0 * use.change,
                       differing == 0 ? "none" : std::to_string(differing));
}

} // namespace swarfbook

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

/// "none" or how many pieces the two photos say different types of.
std::string differingWords(const DebrisFinding& debris) {
    const auto count = std::count_if(debris.particles.begin(), debris.particles.end(), differ);
    return count == 0 ? "none" : std::to_string(count);
}

} // namespace

std::string secondLightLine(const Measurement& measurement) {
    if (!measurement.secondLight || !measurement.debris)
        return "";
    const SecondLightUse& use = *measurement.secondLight;
    if (!use.used)
        return "  second light: the second photo was not used\n";
    return fmt::format("  second light: {} piece{} found in what both photos show together; their "
                       "light changes by {:.0f} % of the card's white (median); the photos name "
                       "different types for {}\n",
                       use.piecesInBoth, use.piecesInBoth == 1 ? "" : "s", 100.0 * use.change,
                       differingWords(*measurement.debris));
}

std::string secondLightSentence(const SecondLightUse& use, const DebrisFinding& debris) {
    if (!use.used)
        return "The photo in a second light was not used, so finds and types rest on one photo. " +
               use.whyNot;
    return fmt::format("Second light: {} piece{} found in what two photos under different light "
                       "show together. Their light changes by {:.0f} % of the card's white "
                       "(median). The photos name different types for {}.",
                       use.piecesInBoth, use.piecesInBoth == 1 ? " was" : "s were",
                       100.0 * use.change, differingWords(debris));
}

} // namespace swarfbook

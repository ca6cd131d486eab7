// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/photo_trust.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>

namespace swarfbook {
namespace {

constexpr double askedPixels = 6.0; // longest side: smaller pieces say little about the photo
constexpr double leastChance = 0.1; // of being found: one piece stands for nine missed at the most
// Prior: this many pieces of the usual kind, for the finds and for the pieces that exist.
constexpr double before = 2.0, beforeFound = 2.3, beforeThere = 2.5;
// Experiment: 143 photos with truth and 20 finds or more (models/piece-trust.md). Where almost all
// finds are the surface, the upper quartile of their sizes is 1.34 to 1.60 times the lower one, and
// that of their light 1.14 to 1.21 times; of debris no photo is below 1.95 and 1.35 in both.
constexpr double alikeSizes = 1.7, alikeLight = 1.25;
constexpr std::size_t fewestAlike = 20;

/// Upper quartile over lower one.
double quartileRatio(std::vector<double> values) {
    const auto at = [&](std::size_t quarter) {
        const auto nth = values.begin() + static_cast<std::ptrdiff_t>(quarter * values.size() / 4);
        std::nth_element(values.begin(), nth, values.end());
        return *nth;
    };
    const double upper = at(3);
    return upper / std::max(at(1), 1e-6);
}

} // namespace

ExpectedAgreement expectedAgreement(const std::vector<Particle>& pieces,
                                    const DetectionModel& detection,
                                    const SeeingConditions& conditions, PixelsPerMillimetre scale) {
    double found = 0.0, debris = 0.0, missed = 0.0;
    for (const Particle& p : pieces) {
        if (p.maxFeret.value.value() * scale.value() < askedPixels)
            continue;
        const double chance =
            std::clamp(detection.chance(p.maxFeret.value, conditions), leastChance, 1.0);
        found += 1.0;
        debris += p.debrisProbability;
        missed += p.debrisProbability * (1.0 / chance - 1.0);
    }
    return {(debris + before) / (found + beforeFound),
            (debris + before) / (debris + missed + beforeThere)};
}

std::optional<ShownOnly> shownOnly(const ExpectedAgreement& expected,
                                   const DetectionModel& detection, bool onWhiteCard) {
    if (expected.balance() >= detection.leastBalance())
        return std::nullopt;
    return ShownOnly{
        fmt::format(
            "On this surface in this light about {:.0f} of 100 pieces are found, and {:.0f} "
            "of 100 finds are debris: too few to count.",
            100.0 * expected.recall, 100.0 * expected.precision),
        onWhiteCard
            ? "Look at the marked pieces by eye. Take the photo again in soft light from above, "
              "with the phone held still."
            : "Look at the marked pieces by eye. Spread the debris on the white window of the "
              "close card and take a photo of that."};
}

std::optional<ShownOnly> shownAsSurface(const std::vector<SizeAndTone>& finds, bool onWhiteCard) {
    if (finds.size() < fewestAlike)
        return std::nullopt;
    std::vector<double> sizes, light;
    for (const SizeAndTone& one : finds) {
        sizes.push_back(one.longest.value());
        light.push_back(one.light);
    }
    if (quartileRatio(sizes) > alikeSizes || quartileRatio(light) > alikeLight)
        return std::nullopt;
    return ShownOnly{
        fmt::format("The {} finds are alike in size and brightness, as the marks of a surface are; "
                    "pieces of debris differ.",
                    finds.size()),
        onWhiteCard ? "Look at the marked pieces by eye. Print the card on plain white paper and "
                      "take the photo again."
                    : "Look at the marked pieces by eye. Spread the debris on the white window of "
                      "the close card and take a photo of that."};
}

} // namespace swarfbook

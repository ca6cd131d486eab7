// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/second_light.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace swarfbook {
namespace {

// Pieces change by 0.01 to 0.02 between two photos in one light, by 0.3 in the median where a torch
// goes to the other side; ours.
constexpr double leastChange = 0.06;
constexpr int fewPieces = 5; // of so few nothing is said

std::string sentencesOf(const Refusal& refusal) {
    return refusal.detail + " " + refusal.advice;
}

std::string differentCard(const CalibratedPhoto& first, const CalibratedPhoto& second) {
    const auto &one = first.card.layout.name, &other = second.card.layout.name;
    if (one != other)
        return fmt::format("It shows a {} card and the photo a {} one. Use the same card for both.",
                           other, one);
    if (!first.serial.empty() && !second.serial.empty() && first.serial != second.serial)
        return fmt::format("It shows the card {} and the photo the card {}. Use the same card for "
                           "both.",
                           second.serial, first.serial);
    return "";
}

std::optional<SecondLight>
layCalibrated(SecondLightUse& use, const Photo& photo, const PhotoForCleanReference& first,
              const std::pair<const std::vector<CardLayout>&, const PieceNetwork&>& tools) {
    auto second = calibratePhoto(photo, tools.first, std::nullopt);
    if (!second) {
        use.whyNot = sentencesOf(second.error());
        return std::nullopt;
    }
    use.whyNot = differentCard(first.photo, *second);
    if (!use.whyNot.empty())
        return std::nullopt;
    second->printScale = first.photo.printScale; // both show one card
    if (!first.onWhiteCard)
        *second = underFrame(std::move(*second));
    const auto window = prepareWindow(*second, first.onWhiteCard);
    if (!window) {
        use.whyNot = sentencesOf(window.error());
        return std::nullopt;
    }
    auto laid = laySecondLight({first.photo, first.window}, {*second, *window}, tools.second);
    if (const auto* misfit = std::get_if<SecondLightMisfit>(&laid)) {
        use.whyNot = misfit->detail + " " + misfit->advice;
        return std::nullopt;
    }
    auto& light = std::get<SecondLight>(laid);
    use.used = true;
    use.likeness = light.likeness;
    use.shift = light.shift;
    return std::move(light);
}

} // namespace

std::pair<SecondLightUse, std::optional<SecondLight>>
laySecondLightUnder(const PhotoFile& second, const PhotoForCleanReference& first,
                    const std::vector<CardLayout>& layouts, const PieceNetwork& network) {
    SecondLightUse use;
    use.file = second.file;
    use.sha256 = second.sha256;
    std::optional<SecondLight> light;
    if (!second.photo)
        use.whyNot = sentencesOf(second.photo.error());
    else if (!second.sha256.empty() && second.sha256 == first.sha256)
        use.whyNot = "It is the very photo that is measured. Leave phone, card and debris where "
                     "they are, move the lamp to the other side and take a second photo.";
    else
        light = layCalibrated(use, *second.photo, first, {layouts, network});
    return {std::move(use), std::move(light)};
}

void tellChange(SecondLightUse& use, const DebrisFinding& debris) {
    std::vector<double> changes;
    for (const Particle& piece : debris.particles)
        if (piece.twoLights)
            changes.push_back(piece.twoLights->change);
    use.piecesInBoth = static_cast<int>(changes.size());
    if (changes.empty())
        return;
    const auto middle = changes.begin() + static_cast<std::ptrdiff_t>(changes.size() / 2);
    std::nth_element(changes.begin(), middle, changes.end());
    use.change = *middle;
}

std::string secondLightCaution(const SecondLightUse& use) {
    if (!use.used)
        return fmt::format("The photo in a second light, {}, was not used, so finds and types rest "
                           "on one photo: {}",
                           use.file, use.whyNot);
    if (use.piecesInBoth >= fewPieces && use.change < leastChange)
        return fmt::format("The light falls much the same in {} as in the first photo, so it adds "
                           "little. Move the lamp to the other side of the card and take it again.",
                           use.file);
    return "";
}

} // namespace swarfbook

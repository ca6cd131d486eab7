// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/calibrated_photo.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

Refusal tooDark(double code) {
    return {RefusalReason::tooDark,
            fmt::format("The card's white paper is only {:.0f} of 255 bright in this photo.", code),
            "Bring a lamp over the bench, or lengthen the exposure, and take the photo again."};
}

double coarsestUseful(const CardLayout& layout) {
    return layout.name == "close" ? 0.4 : 0.8; // mm: design's main sizes doubled
}

Result<CalibratedPhoto> withCard(const Photo& photo, CardSighting card,
                                 std::optional<Millimetres> measuredBar) {
    const PrintScale scale =
        measuredBar ? printScaleFromBar(card.layout, *measuredBar) : PrintScale{};
    CalibratedPhoto calibrated{photo.bgr, std::move(card), scale, {}, {}, {}, false, {}};
    calibrated.surface = calibrated.card.mapping;
    calibrated.focalKnown = tellsFocalLength(photo.facts);
    const auto light = readPaperLight(photo.bgr, calibrated.card);
    const auto sharpness = readSharpness(photo.bgr, calibrated.card);
    if (light && light->medianCode < 60.0)
        return tooDark(light->medianCode);
    if (light && light->clippedShare > 0.5)
        return Refusal{RefusalReason::clipped,
                       fmt::format("The card's white is washed out over {:.0f} % of the card.",
                                   100.0 * light->clippedShare),
                       "Touch the white paper on the phone's screen so that it exposes for it, or "
                       "lower the exposure, and take the photo again."};
    if (!light || !sharpness)
        return Refusal{RefusalReason::blurred,
                       "The edges of the card's slanted squares cannot be read.",
                       "Clean the lens, hold the phone still, touch the card on the screen to "
                       "focus there, and take the photo again."};
    calibrated.light = *light;
    calibrated.sharpness = *sharpness;
    const Millimetres floor = sizeFloorOf(*sharpness, calibrated.trueScale());
    const double coarsest = coarsestUseful(calibrated.card.layout);
    if (floor.value() > coarsest)
        return Refusal{
            RefusalReason::blurred,
            fmt::format("The card's edges are smeared over {:.1f} pixels: nothing smaller than "
                        "{:.2f} mm could be trusted, and {:.1f} mm is the most this card allows.",
                        sharpness->widestDirection.value(), floor.value(), coarsest),
            "Clean the lens, rest the phone on something, come closer, touch the card on the "
            "screen to focus there, and take the photo again."};
    return calibrated;
}

} // namespace

Millimetres sizeFloorOf(const Sharpness& sharpness, PixelsPerMillimetre scale) {
    constexpr double pixels = 3.0;     // across the minimum Feret, design section 3.3
    constexpr double edgeWidths = 1.5; // a piece narrower than its own blurred edges has no outline
    return Pixels(std::max(pixels, edgeWidths * sharpness.widestDirection.value())) / scale;
}

Result<CalibratedPhoto> calibratePhoto(const Photo& photo, const std::vector<CardLayout>& layouts,
                                       std::optional<Millimetres> measuredBar) {
    auto card = findCard(photo, layouts);
    if (!card) {
        const double brightest = cv::mean(photo.bgr)[1];
        if (card.error().reason == RefusalReason::noCard && brightest < 25.0)
            return tooDark(brightest);
        return card.error();
    }
    return withCard(photo, std::move(*card), measuredBar);
}

} // namespace swarfbook

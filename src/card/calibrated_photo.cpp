// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/calibrated_photo.h"

#include "card/serial_code.h"
#include "card/tone_curve.h"
#include "card/why_no_card.h"

#include <fmt/format.h>
#include <opencv2/core.hpp>

#include <algorithm>
#include <iterator>

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

/// What would help against this blur.
std::string adviceAgainst(BlurCause cause) {
    const std::string still =
        "rest the phone on something or hold it with both hands, and use more "
        "light";
    const std::string focus = "touch the card on the screen to focus there, and clean the lens";
    switch (cause) {
    case BlurCause::motion:
        return "Hold the phone still: " + still + ".";
    case BlurCause::focus:
        return "Set the focus: " + focus + ".";
    default:
        return "Hold the phone still and set the focus: " + still + "; " + focus + ".";
    }
}

/// "smeared over 12 pixels in one direction (the phone or the card moved)"
std::string blurWords(const Sharpness& s) {
    switch (s.cause) {
    case BlurCause::motion:
        return fmt::format("smeared over about {:.0f} pixels in one direction: the phone or the "
                           "card moved",
                           s.smear.value());
    case BlurCause::both:
        return fmt::format("smeared over about {:.0f} pixels in one direction, and soft in the "
                           "others too: the phone moved and the focus lay elsewhere",
                           s.smear.value());
    default:
        return "soft in all directions alike: the focus lay elsewhere, or the lens is dirty";
    }
}

std::string sideOfCard(const CardLayout& layout, PointOnCard at) {
    const std::string across = at.x < layout.outer.width / 2.0 ? "left" : "right";
    const std::string down = at.y < layout.outer.height / 2.0 ? "upper" : "lower";
    return fmt::format("{} {} corner", down, across);
}

/// A side of the window that is clearly less sharp than the one across from it.
struct SoftSide {
    std::string side, other;
    double width = 0.0, otherWidth = 0.0; ///< px, mean of the side's two corners
};

std::optional<SoftSide> softSideOf(const std::vector<EdgeWidths>& overWindow) {
    constexpr double much = 1.35;       // of the other side's width
    constexpr double sharpEnough = 2.0; // px: the smallest size is then set by the pixels
    if (overWindow.size() < 4)
        return std::nullopt;
    const auto side = [&](std::size_t a, std::size_t b) {
        return (overWindow[a].wider().value() + overWindow[b].wider().value()) / 2.0;
    };
    const SoftSide sides[] = {{"left", "right", side(0, 3), side(1, 2)},
                              {"right", "left", side(1, 2), side(0, 3)},
                              {"upper", "lower", side(0, 1), side(2, 3)},
                              {"lower", "upper", side(2, 3), side(0, 1)}};
    const SoftSide* softest = &*std::max_element(
        std::begin(sides), std::end(sides), [](const SoftSide& a, const SoftSide& b) {
            return a.width / a.otherWidth < b.width / b.otherWidth;
        });
    if (softest->width < std::max(much * softest->otherWidth, sharpEnough))
        return std::nullopt;
    return *softest;
}

void addSharpnessCautions(CalibratedPhoto& photo) {
    const Sharpness& s = photo.sharpness;
    if (s.cause != BlurCause::none)
        photo.cautions.push_back(
            fmt::format("The photo is {}. {}", blurWords(s), adviceAgainst(s.cause)));
    if (const auto soft = softSideOf(s.overWindow))
        photo.cautions.push_back(fmt::format(
            "The window's {} side is clearly softer than its {} one (edges {:.1f} pixels wide, "
            "against "
            "{:.1f}), so the size limit is that of the soft side. Hold the phone parallel to the "
            "card and touch the middle of the window on the screen to focus there.",
            soft->side, soft->other, soft->width, soft->otherWidth));
    else if (s.worst)
        photo.cautions.push_back(fmt::format(
            "The card is less sharp near its {} (edges {:.1f} pixels wide there, {:.1f} on the "
            "whole), so the size limit is that of this corner. Hold the phone level above the "
            "card's middle and a little farther off.",
            sideOfCard(photo.card.layout, s.worst->at), s.worst->width.value(),
            s.edgeWidth.value()));
}

void addBendCaution(CalibratedPhoto& photo) {
    const CardSighting& card = photo.card;
    if (!card.bend.bent)
        return;
    photo.cautions.push_back(fmt::format(
        "The card is bent or curled: it rises by up to {:.1f} \u00b1 {:.1f} mm over the window, so "
        "lengths differ from place to place by {:.1f} % (standard uncertainty, carried in every "
        "length). Press it flat, tape its corners down or glue it on board, and take the photo "
        "again.",
        card.bend.rise.value(), 2.0 * card.bend.riseU.value(), card.scaleUPercent));
}

Refusal blurred(const CalibratedPhoto& photo, Millimetres smallest, double coarsest) {
    const Sharpness& s = photo.sharpness;
    return {RefusalReason::blurred,
            fmt::format("The card's edges are smeared over {:.1f} pixels: nothing smaller than "
                        "{:.2f} mm could be trusted, and {:.1f} mm is the most this card allows. "
                        "The photo is {}.",
                        s.leastSharp().value(), smallest.value(), coarsest,
                        s.cause == BlurCause::none ? "sharp for its pixels, but they are too coarse"
                                                   : blurWords(s)),
            s.cause == BlurCause::none
                ? std::string("Come closer, send the original photo and not one that a messenger "
                              "made small, and take the photo again.")
                : adviceAgainst(s.cause) + " Then take the photo again."};
}

/// Undoes a camera's own tone curve if the card's grey steps show one.
void straightenTones(CalibratedPhoto& photo) {
    const auto curve = toneCurveOf(readGreySteps(photo.bgr, photo.card));
    if (!curve)
        return;
    cv::Mat straight;
    cv::LUT(photo.bgr, curve->straightened(), straight);
    photo.bgr = straight;
    photo.cautions.push_back(fmt::format(
        "The photo's tones are bent ({} than in a plain photo, by the card's grey steps). "
        "They were straightened before measuring, but detail lost in the bend is gone: switch "
        "off filters, scene modes and vivid colours before the next photo.",
        curve->contrast > 0.05    ? "harder"
        : curve->contrast < -0.05 ? "flatter"
        : curve->power > 1.0      ? "darker"
                                  : "lighter"));
}

Result<CalibratedPhoto> withCard(const Photo& photo, CardSighting card, const KnownBars& bars) {
    std::string serial = readSerialCode(photo.bgr, card).value_or("");
    std::optional<Millimetres> bar = bars.ofThisCard;
    if (!bar && !serial.empty() && bars.bySerial)
        bar = bars.bySerial(serial, card.layout.name);
    const PrintScale scale = bar ? printScaleFromBar(card.layout, *bar) : PrintScale{};
    CalibratedPhoto calibrated{photo.bgr, std::move(card),   scale, {}, {}, {},
                               false,     std::move(serial), {}};
    calibrated.surface = calibrated.card.mapping;
    calibrated.focalKnown = tellsFocalLength(photo.facts);
    straightenTones(calibrated);
    const auto light = readPaperLight(calibrated.bgr, calibrated.card);
    const auto sharpness = readSharpness(calibrated.bgr, calibrated.card);
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
    const Millimetres smallest = seenFromOf(*sharpness, calibrated.trueScale());
    const double coarsest = coarsestUseful(calibrated.card.layout);
    if (smallest.value() > coarsest)
        return blurred(calibrated, smallest, coarsest);
    addSharpnessCautions(calibrated);
    addBendCaution(calibrated);
    return calibrated;
}

} // namespace

Millimetres seenFromOf(const Sharpness& sharpness, PixelsPerMillimetre scale) {
    constexpr double pixels = 3.0;     // across the minimum Feret; our choice
    constexpr double edgeWidths = 1.5; // a piece narrower than its own blurred edges has no outline
    return Pixels(std::max(pixels, edgeWidths * sharpness.leastSharp().value())) / scale;
}

Result<CalibratedPhoto> calibratePhoto(const Photo& photo, const std::vector<CardLayout>& layouts,
                                       const KnownBars& bars) {
    auto card = findCard(photo, layouts);
    if (!card) {
        return card.error().reason == RefusalReason::noCard ? whyNoCard(photo.bgr, card.error())
                                                            : card.error();
    }
    return withCard(photo, std::move(*card), bars);
}

Result<CalibratedPhoto> calibratePhoto(const Photo& photo, const std::vector<CardLayout>& layouts,
                                       std::optional<Millimetres> measuredBar) {
    return calibratePhoto(photo, layouts, KnownBars{measuredBar});
}

} // namespace swarfbook

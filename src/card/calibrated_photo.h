// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/result.h"
#include "card/find_card.h"
#include "card/paper_light.h"
#include "card/sharpness.h"

#include <functional>
#include <optional>
#include <string>

namespace swarfbook {

/// A photo with all that its card gives: the only kind of photo that debris is measured in.
struct CalibratedPhoto {
    cv::Mat bgr; ///< upright, sRGB, shared with the Photo it came from
    CardSighting card;
    PrintScale printScale;
    Sharpness sharpness;
    PaperLight light;
    PlaneMapping surface;    ///< of what is measured: the card's plane, or the one under a frame
    bool focalKnown = false; ///< the mapping's focal length is the photo's own, not a usual one
    std::string serial{};    ///< from the code on the card, "" if none is read
    std::vector<std::string> cautions{}; ///< what to mind in this photo, a sentence and advice each

    /// True millimetres (nominal x print scale) of a photo place on the surface, and back.
    [[nodiscard]] PointOnCard trueFromPhoto(PointInPhoto p) const {
        const PointOnCard nominal = surface.cardFromPhoto(p);
        return {nominal.x * printScale.value, nominal.y * printScale.value};
    }
    [[nodiscard]] PointInPhoto photoFromTrue(PointOnCard p) const {
        return surface.photoFromCard({p.x / printScale.value, p.y / printScale.value});
    }
    /// Pixels per true millimetre, mean over the window.
    [[nodiscard]] PixelsPerMillimetre trueScale() const {
        return PixelsPerMillimetre(card.scale.value() / printScale.value);
    }
};

/// The check bar of the card of this serial and layout, by callipers; nullopt if not known. Called
/// when a code was read on the card.
using BarOfCard =
    std::function<std::optional<Millimetres>(const std::string& serial, const std::string& layout)>;

/// Check bars as measured with callipers.
struct KnownBars {
    std::optional<Millimetres> ofThisCard; ///< given with the photo
    BarOfCard bySerial{};                  ///< called if none was given
};

/// Calibrates a photo by the card in it.
///
/// @param measuredBar  check bar of this very card as callipers read it; nullopt: not checked.
///                     Throws UsageError when it cannot be this card's bar (printScaleFromBar).
/// Refuses what findCard refuses, and: too_dark, clipped (the card's white is at the top of the
/// range over more than half of it), blurred (no piece of 0.4 mm on the close card, 0.8 mm on the
/// wide one, could be trusted: see seenFromOf).
/// Checked: tests/card/calibrate_test.cpp, tests/blackbox.
Result<CalibratedPhoto> calibratePhoto(const Photo& photo, const std::vector<CardLayout>& layouts,
                                       std::optional<Millimetres> measuredBar);
/// The same. If no bar was given with the photo, uses the bar of the serial in the card's code.
Result<CalibratedPhoto> calibratePhoto(const Photo& photo, const std::vector<CardLayout>& layouts,
                                       const KnownBars& bars);

/// The smallest maximum Feret that a photo resolves: 3 pixels or 1.5 edge widths, whichever is
/// larger, with the edge width of the least sharp direction and part of the window. From there up a
/// piece has an outline. From which size on hardly any piece is missed depends on the surface as
/// well (debris/detection_limit.h).
Millimetres seenFromOf(const Sharpness& sharpness, PixelsPerMillimetre scale);

} // namespace swarfbook

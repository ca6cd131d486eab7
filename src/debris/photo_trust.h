// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/detection_limit.h"
#include "particles/particle.h"

#include <optional>
#include <vector>

namespace swarfbook {

/// Expected share of a photo's finds that are debris, and of its debris that is found.
struct ExpectedAgreement {
    double precision = 1.0, recall = 1.0; ///< 0 to 1
    /// Their harmonic mean, F1.
    [[nodiscard]] double balance() const { return 2 * precision * recall / (precision + recall); }
};

/// Estimated from the photo alone: each piece counts with its probability of being debris, and it
/// also stands for the missed pieces of its size, by the chance that such a piece is found. Uses
/// pieces of six pixels and more; with few of them the estimate leans on the usual values.
/// @param scale  px per true mm
ExpectedAgreement expectedAgreement(const std::vector<Particle>& pieces,
                                    const DetectionModel& detection,
                                    const SeeingConditions& conditions, PixelsPerMillimetre scale);

/// Why the pieces of such a photo must not be counted; nothing if they may be. models/network.md
/// says how well this finds the photos that would be counted wrongly.
/// Checked: tests/debris/photo_trust_test.cpp.
std::optional<ShownOnly> shownOnly(const ExpectedAgreement& expected,
                                   const DetectionModel& detection, bool onWhiteCard);

/// A find as the surface's own marks are told by it.
struct SizeAndTone {
    Millimetres longest;
    double light = 0.0; ///< of its brightest part, over the card's white
};

/// Why finds that are all alike must not be counted; nothing if they differ, or if they are few.
/// Debris lies there in many sizes, bright and dark; what repeats in size and tone is the surface.
/// models/piece-trust.md says on which photos the limits were set.
/// Checked: tests/debris/photo_trust_test.cpp.
std::optional<ShownOnly> shownAsSurface(const std::vector<SizeAndTone>& finds, bool onWhiteCard);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/detection_limit.h"
#include "particles/particle.h"

#include <optional>
#include <vector>

namespace swarfbook {

/// How many of a photo's finds are expected to be debris, and how much of its debris to be found.
struct ExpectedAgreement {
    double precision = 1.0, recall = 1.0; ///< 0 to 1
    /// Their harmonic mean, F1.
    [[nodiscard]] double balance() const { return 2 * precision * recall / (precision + recall); }
};

/// From the photo alone: each piece counts by its probability of being debris, and for the pieces
/// of its size that are missed by the chance that such a piece is found. Pieces of six pixels and
/// more are asked; where there are few, the usual is expected.
/// @param scale  px per true mm
ExpectedAgreement expectedAgreement(const std::vector<Particle>& pieces,
                                    const DetectionModel& detection,
                                    const SeeingConditions& conditions, PixelsPerMillimetre scale);

/// Why the pieces of such a photo are not to be counted; nothing where they may be.
/// How well this picks out the photos that would be counted wrongly: models/network.md.
/// Checked: tests/debris/photo_trust_test.cpp.
std::optional<ShownOnly> shownOnly(const ExpectedAgreement& expected,
                                   const DetectionModel& detection, bool onWhiteCard);

} // namespace swarfbook

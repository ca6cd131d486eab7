// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/evidence.h"
#include "trend/visit_comparison.h"

#include <optional>
#include <vector>

namespace swarfbook {

/// The latest observation of one kind, if any.
template <class T> const T* latest(const VisitEvidence& visit) {
    const T* found = nullptr;
    for (const Observation& observation : visit.observations)
        if (const T* held = std::get_if<T>(&observation))
            found = held;
    return found;
}

/// Distance since the last documented clean, as last entered; nothing if unknown or not entered.
std::optional<Kilometres> sinceClean(const VisitEvidence& visit);

/// Places of the visit with a measured photo, best for comparing first: pan, white card, strained,
/// tray, filter, magnet.
std::vector<Place> measuredPlaces(const VisitEvidence& visit);

/// The measured photos of one place as repeats of one sample. Photos taken in another way than the
/// first of that place are left out. @throws EvidenceRefused when no photo of it was measured.
VisitSample sampleOf(const VisitEvidence& visit, Place place);

/// Compares two visits at `place`, or at the first place both have.
/// @throws EvidenceRefused with the reason when they cannot be compared.
VisitComparison compareVisits(const VisitEvidence& before, const VisitEvidence& after,
                              std::optional<Place> place = std::nullopt);

} // namespace swarfbook

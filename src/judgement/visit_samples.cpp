// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/visit_samples.h"

#include "base/errors.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace swarfbook {
namespace {

constexpr std::array bestFirst{Place::pan,  Place::pad,    Place::strained,
                               Place::tray, Place::filter, Place::magnet};

bool measuredAt(const VisitEvidence& visit, Place place) {
    return std::any_of(visit.samples.begin(), visit.samples.end(),
                       [&](const DebrisSample& s) { return s.place == place && s.finding; });
}

/// The photo whose way of sampling stands for the place: of a filter's two sides the dirty one, on
/// which most lies. nullptr where none was measured.
const DebrisSample* firstOf(const VisitEvidence& visit, Place place) {
    const DebrisSample* first = nullptr;
    for (const DebrisSample& photo : visit.samples)
        if (photo.place == place && photo.finding &&
            (first == nullptr ||
             (first->basis.side == FilterSide::clean && photo.basis.side != FilterSide::clean)))
            first = &photo;
    return first;
}

} // namespace

std::optional<Kilometres> sinceClean(const VisitEvidence& visit) {
    const auto* told = latest<SinceClean>(visit);
    if (told == nullptr || !told->distance)
        return std::nullopt;
    return told->distance->value;
}

std::vector<Place> measuredPlaces(const VisitEvidence& visit) {
    std::vector<Place> places;
    for (const Place place : bestFirst)
        if (measuredAt(visit, place))
            places.push_back(place);
    return places;
}

VisitSample sampleOf(const VisitEvidence& visit, Place place) {
    VisitSample sample;
    sample.visitId = visit.visitId;
    sample.date = visit.date;
    sample.place = place;
    sample.since = sinceClean(visit);
    const DebrisSample* first = firstOf(visit, place);
    for (const DebrisSample& photo : visit.samples) {
        if (photo.place != place || !photo.finding)
            continue;
        sample.sampling = first->sampling;
        if (photo.sampling == sample.sampling &&
            (sample.repeats.empty() ||
             sample.repeats.front().onWhiteCard == photo.finding->onWhiteCard))
            sample.repeats.push_back(*photo.finding);
    }
    if (sample.repeats.empty())
        throw EvidenceRefused(fmt::format(
            "Visit {0} has no measured photo of the {1}. Add one: swarfbook add --visit {0} "
            "--place {1} PHOTO",
            visit.visitId, placeWord(place)));
    return sample;
}

VisitComparison compareVisits(const VisitEvidence& before, const VisitEvidence& after,
                              std::optional<Place> place) {
    if (place)
        return compareVisits(sampleOf(before, *place), sampleOf(after, *place));
    for (const Place candidate : measuredPlaces(after))
        if (measuredAt(before, candidate))
            return compareVisits(sampleOf(before, candidate), sampleOf(after, candidate));
    throw EvidenceRefused(
        fmt::format("Visits {} and {} have no measured photo of the same place, so there is "
                    "nothing to compare. Photograph the same place at each visit.",
                    before.visitId, after.visitId));
}

} // namespace swarfbook

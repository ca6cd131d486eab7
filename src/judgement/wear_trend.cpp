// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/wear_trend.h"

#include "base/errors.h"
#include "judgement/coat_of_magnet.h"
#include "judgement/visit_samples.h"

#include <algorithm>

namespace swarfbook {
namespace {

std::optional<VisitSample> maybeSample(const VisitEvidence& visit, Place place) {
    const auto places = measuredPlaces(visit);
    if (std::find(places.begin(), places.end(), place) == places.end())
        return std::nullopt;
    return sampleOf(visit, place);
}

/// A score that is no least amount.
bool isRate(const WearScoreResult& result) {
    const auto* score = std::get_if<WearScore>(&result);
    return score != nullptr && !score->atLeast;
}

/// The fuzz that other magnets gathered is another amount.
bool mayBeCompared(const VisitEvidence& visit, const VisitEvidence& now, Place place) {
    return place != Place::magnet || &visit == &now || otherMagnets(visit, now).empty();
}

} // namespace

std::vector<ScoredVisit> comparableScores(const Evidence& evidence, Place place,
                                          const WearScoreModel& model) {
    const auto last = maybeSample(evidence.now, place);
    if (!last)
        return {};
    std::vector<const VisitEvidence*> alike;
    Millimetres floor;
    const auto take = [&](const VisitEvidence& visit) {
        const auto sample = maybeSample(visit, place);
        if (!sample || !visit.odometer || sample->sampling != last->sampling ||
            sample->repeats.front().onWhiteCard != last->repeats.front().onWhiteCard ||
            !mayBeCompared(visit, evidence.now, place) ||
            !isRate(wearScore(visit, place, floor, model)))
            return;
        alike.push_back(&visit);
        for (const DebrisFinding& finding : sample->repeats)
            floor = std::max(floor, finding.detectionLimit);
    };
    for (const VisitEvidence& visit : evidence.earlier)
        take(visit);
    take(evidence.now);
    std::vector<ScoredVisit> scored;
    for (const VisitEvidence* visit : alike)
        scored.push_back({visit->visitId, visit->date, *visit->odometer,
                          std::get<WearScore>(wearScore(*visit, place, floor, model))});
    return scored;
}

std::vector<TrendPoint> trendPoints(const std::vector<ScoredVisit>& visits) {
    std::vector<TrendPoint> points;
    for (const ScoredVisit& visit : visits)
        points.push_back({visit.odometer.value(), visit.score.value});
    return points;
}

} // namespace swarfbook

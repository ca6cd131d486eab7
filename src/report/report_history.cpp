// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/report_history.h"

#include "base/errors.h"
#include "base/shown_units.h"
#include "judgement/coat_of_magnet.h"
#include "judgement/visit_samples.h"
#include "report/photo_view.h"
#include "report/report_sample.h"
#include "trend/trend.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <utility>

namespace swarfbook {

namespace {

constexpr double besideWidthPx = 1100.0; // of one of two pictures side by side

std::vector<ReportedChange> changesOf(const VisitComparison& comparison) {
    std::vector<ReportedChange> changes;
    for (const TypeChange& change : comparison.changes)
        changes.push_back({change.type, change.before.count, change.after.count,
                           change.comparison.ratio, change.comparison.low, change.comparison.high,
                           change.proven});
    return changes;
}

/// The first measured photo of a place at a visit.
std::optional<StoredPhoto> photoOf(const Book& book, std::int64_t visit, Place place) {
    for (StoredPhoto& photo : book.photos(visit))
        if (photo.place == place && !photo.measurement.refusal && photo.measurement.card)
            return std::move(photo);
    return std::nullopt;
}

/// Where the photos of a report come from.
struct PhotoSource {
    const Book& book;
    Originals& originals;
};

void addPictures(ReportModel& model, const PhotoSource& from, std::int64_t before,
                 std::int64_t now) {
    ReportedComparison& both = *model.comparison;
    const auto first = photoOf(from.book, before, both.place),
               second = photoOf(from.book, now, both.place);
    if (!first || !second)
        return;
    const Original then = from.originals.of(*first), today = from.originals.of(*second);
    for (const auto& [date, why] :
         {std::pair(both.beforeDate, then.why), std::pair(both.nowDate, today.why)})
        if (!why.empty())
            model.notKnown.push_back(
                fmt::format("The {} then and now are not shown side by side: of the photo of {}, "
                            "{}",
                            placeWord(both.place), dateWords(date), why));
    if (then.bgr.empty() || today.bgr.empty())
        return;
    const double width = std::max(windowOf(*first->measurement.card).width,
                                  windowOf(*second->measurement.card).width);
    both.pxPerMm = besideWidthPx / (width + 2.0);
    const PixelsPerMillimetre scale(both.pxPerMm);
    both.before = windowPicture(then.bgr, first->measurement, scale);
    both.now = windowPicture(today.bgr, second->measurement, scale);
}

ReportedComparison compared(const VisitEvidence& before, const VisitEvidence& now) {
    const VisitComparison comparison = compareVisits(before, now);
    ReportedComparison both;
    both.beforeDate = before.date;
    both.nowDate = now.date;
    both.place = comparison.place;
    both.sentence = comparison.sentence;
    both.compared = true;
    both.detectionLimit = comparison.detectionLimit;
    both.changes = changesOf(comparison);
    return both;
}

/// Two visits that show the same place but cannot be compared: side by side with the reason.
std::optional<ReportedComparison> besideOnly(const VisitEvidence& before, const VisitEvidence& now,
                                             const std::string& reason) {
    const std::vector<Place> then = measuredPlaces(before);
    for (const Place place : measuredPlaces(now))
        if (std::find(then.begin(), then.end(), place) != then.end()) {
            ReportedComparison both;
            both.beforeDate = before.date;
            both.nowDate = now.date;
            both.place = place;
            both.sentence = "the amounts cannot be compared. " + reason;
            return both;
        }
    return std::nullopt;
}

/// Size floor of one place common to all visits that show it.
Millimetres commonFloor(const std::vector<const VisitEvidence*>& visits, Place place) {
    Millimetres floor;
    for (const VisitEvidence* visit : visits)
        for (const DebrisSample& sample : visit->samples)
            if (sample.place == place && sample.finding)
                floor = std::max(floor, sample.finding->detectionLimit);
    return floor;
}

struct ScoreOf {
    Place place;
    const WearScoreModel& model;
    Millimetres floor; ///< pieces from here up count
};

/// A visit's score for the trend; none where the sample was taken in another way than now's.
WearScoreResult scoreLikeNow(const VisitEvidence& visit, const VisitEvidence& now,
                             const ScoreOf& score) {
    const Place place = score.place;
    const std::vector<Place> places = measuredPlaces(visit);
    if (std::find(places.begin(), places.end(), place) == places.end())
        return NoWearScore{fmt::format("no photo of the {} was measured", placeWord(place)),
                           "Photograph the same places at each visit."};
    const VisitSample sample = sampleOf(visit, place), today = sampleOf(now, place);
    if (sample.sampling != today.sampling ||
        sample.repeats.front().onWhiteCard != today.repeats.front().onWhiteCard)
        return NoWearScore{
            fmt::format("the sample was taken in another way (\"{}\")", sample.sampling),
            "Take samples in one way at each visit."};
    if (place == Place::magnet && &visit != &now)
        if (const std::string others = otherMagnets(visit, now); !others.empty())
            return NoWearScore{others, "From this visit on it can be scored."};
    return wearScore(visit, place, score.floor, score.model);
}

std::vector<ReportedTrendPoint> pointsAt(const std::vector<const VisitEvidence*>& visits,
                                         Place place, const WearScoreModel& model) {
    const Millimetres floor = commonFloor(visits, place);
    std::vector<ReportedTrendPoint> points;
    for (const VisitEvidence* visit : visits)
        points.push_back({visit->visitId, visit->date,
                          visit->odometer ? std::optional(visit->odometer->value()) : std::nullopt,
                          scoreLikeNow(*visit, *visits.back(), {place, model, floor})});
    return points;
}

long scoredIn(const std::vector<ReportedTrendPoint>& points) {
    return std::count_if(points.begin(), points.end(), [](const ReportedTrendPoint& point) {
        return std::holds_alternative<WearScore>(point.score);
    });
}

std::string trendSentenceOf(const std::vector<ReportedTrendPoint>& points) {
    std::vector<TrendPoint> known;
    Millimetres floor;
    for (const ReportedTrendPoint& point : points)
        if (const auto* score = std::get_if<WearScore>(&point.score);
            score && !score->atLeast && point.odometerKm) {
            known.push_back({*point.odometerKm, score->value});
            floor = score->detectionLimit;
        }
    if (known.size() < 2 && known.size() < static_cast<std::size_t>(scoredIn(points)))
        return "Full magnets gather no more, so no trend is drawn through their fuzz.";
    if (known.size() < 2)
        return "First visit with a wear score: no trend yet.";
    try {
        return fmt::format("Pieces of {:.2f} mm and more (all these photos are complete down to "
                           "there). ",
                           floor.value()) +
               trendOf(known).sentence;
    } catch (const EvidenceRefused& few) {
        return few.what();
    }
}

} // namespace

void addComparison(ReportModel& model, const Book& book, const Evidence& evidence,
                   Originals& originals) {
    if (evidence.earlier.empty()) {
        model.noComparison = "This is the vehicle's first visit in the book: there is nothing "
                             "to compare it with.";
        return;
    }
    for (auto before = evidence.earlier.rbegin(); before != evidence.earlier.rend(); ++before) {
        try {
            model.comparison = compared(*before, evidence.now);
        } catch (const EvidenceRefused& no) {
            if (model.noComparison.empty())
                model.noComparison = no.what();
            continue;
        }
        addPictures(model, {book, originals}, before->visitId, evidence.now.visitId);
        return;
    }
    for (auto before = evidence.earlier.rbegin(); before != evidence.earlier.rend(); ++before) {
        model.comparison = besideOnly(*before, evidence.now, model.noComparison);
        if (!model.comparison)
            continue;
        addPictures(model, {book, originals}, before->visitId, evidence.now.visitId);
        return;
    }
}

void addTrend(ReportModel& model, const Evidence& evidence, const WearScoreModel& wear) {
    std::vector<const VisitEvidence*> visits;
    for (const VisitEvidence& visit : evidence.earlier)
        visits.push_back(&visit);
    visits.push_back(&evidence.now);
    long most = -1;
    for (const Place place : measuredPlaces(evidence.now)) {
        const std::vector<ReportedTrendPoint> points = pointsAt(visits, place, wear);
        if (scoredIn(points) <= most)
            continue;
        most = scoredIn(points);
        model.trend = points;
        model.wearScore = points.back().score;
    }
    if (model.trend.empty())
        model.wearScore = wearScore(evidence.now, wear);
    model.trendSentence = trendSentenceOf(model.trend);
}

} // namespace swarfbook

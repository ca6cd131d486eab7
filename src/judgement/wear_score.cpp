// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/wear_score.h"

#include "base/poisson.h"
#include "base/shown_units.h"
#include "judgement/visit_samples.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace swarfbook {
namespace {

constexpr double z95 = 1.959964;

double sizeWeight(const WearScoreModel& model, Millimetres size) {
    double weight = model.bySize.front().weight;
    for (const auto& step : model.bySize)
        if (size >= step.from)
            weight = step.weight;
    return weight;
}

/// Weighted load of one photo and its counting variance, before division by the exposure.
struct Load {
    double value = 0.0;
    double variance = 0.0;      ///< Poisson: sum of squared weights
    double largestWeight = 0.0; ///< of a piece seen
};

/// A piece counts where its size is at or above the floor; at a cut window's edge it is left out.
Load loadOf(const DebrisFinding& finding, Millimetres floor, const WearScoreModel& model) {
    Load load;
    for (const Particle& p : finding.particles) {
        if (p.maxFeret.value < floor || (!finding.onWhiteCard && p.atEdge))
            continue;
        const double weight =
            sizeWeight(model, p.maxFeret.value) * model.byType.at(static_cast<std::size_t>(p.type));
        load.value += weight;
        load.variance += weight * weight;
        load.largestWeight = std::max(load.largestWeight, weight);
    }
    return load;
}

double exposureOf(const DebrisFinding& finding, Kilometres since) {
    const double distance = since.value() / 10000.0;
    return finding.onWhiteCard ? distance : finding.measuredArea.value() / 100.0 * distance;
}

/// Load of the magnet's coat; its standard uncertainty squared in `variance`.
Load coatLoad(const MagnetFinding& magnet, const WearScoreModel& model) {
    Load load;
    load.value = model.coatWeight * magnet.coveredShare.value.value() +
                 model.overhangWeightPerMm * std::max(0.0, magnet.overhangMean.value());
    const double u = model.coatWeight * magnet.coveredShare.standardUncertainty.value();
    const double rim =
        model.overhangWeightPerMm * magnet.overhangUncertainty.value_or(Millimetres(0.0)).value();
    load.variance = u * u + rim * rim;
    return load;
}

double scoreOf(double loadPer10000Km, const WearScoreModel& model) {
    return 100.0 * loadPer10000Km / (loadPer10000Km + model.halfLoad);
}

/// Loads per exposure of all repeats, and the mean counting variance of one of them.
struct Repeats {
    std::vector<double> loads;
    double countingVariance = 0.0;
    double unseen = 0.0; ///< load of pieces that a zero count still allows (95 %)
};

Repeats repeatsOf(const VisitEvidence& visit, Place place, Millimetres floor,
                  const WearScoreModel& model) {
    const Kilometres since = *sinceClean(visit);
    const VisitSample sample = sampleOf(visit, place);
    Repeats repeats;
    for (const DebrisSample& photo : visit.samples) {
        if (photo.place != place || !photo.finding || photo.sampling != sample.sampling ||
            photo.finding->onWhiteCard != sample.repeats.front().onWhiteCard)
            continue;
        const double exposure = exposureOf(*photo.finding, since);
        Load load = loadOf(*photo.finding, floor, model);
        double perExposure = load.value / exposure;
        double variance = load.variance / (exposure * exposure);
        if (photo.magnet) {
            // the coat gathers over distance alone: the area photographed does not divide it
            const double distance = since.value() / 10000.0;
            const Load coat = coatLoad(*photo.magnet, model);
            perExposure += coat.value / distance;
            variance += coat.variance / (distance * distance);
        }
        repeats.loads.push_back(perExposure);
        repeats.countingVariance += variance;
        const double one = load.largestWeight > 0.0 ? load.largestWeight : sizeWeight(model, floor);
        repeats.unseen = std::max(repeats.unseen, poissonInterval95(0)[1] * one / exposure);
    }
    repeats.countingVariance /= static_cast<double>(repeats.loads.size());
    return repeats;
}

double meanOf(const std::vector<double>& values) {
    double sum = 0.0;
    for (const double value : values)
        sum += value;
    return sum / static_cast<double>(values.size());
}

/// Variance between repeats of one sample: their own spread where there are three or more, else
/// the model's relative repeatability.
double repeatVariance(const Repeats& repeats, double mean, const WearScoreModel& model) {
    const double assumed = model.repeatability * mean;
    if (repeats.loads.size() < 3)
        return assumed * assumed;
    double squares = 0.0;
    for (const double load : repeats.loads)
        squares += (load - mean) * (load - mean);
    return squares / static_cast<double>(repeats.loads.size() - 1);
}

/// 95 % limits on the load's logarithm, so that they stay above nothing; a zero load gets the
/// upper limit that a zero count allows.
std::array<double, 2> limitsOf(double mean, double variance, double unseen) {
    if (!(mean > 0.0))
        return {0.0, unseen};
    const double relative = std::sqrt(std::log1p(variance / (mean * mean)));
    return {mean * std::exp(-z95 * relative), mean * std::exp(z95 * relative)};
}

Millimetres floorOf(const VisitEvidence& visit, Place place) {
    Millimetres floor;
    for (const DebrisSample& photo : visit.samples)
        if (photo.place == place && photo.finding)
            floor = std::max(floor, photo.finding->detectionLimit);
    return floor;
}

std::optional<NoWearScore> whyNone(const VisitEvidence& visit, Place place) {
    const std::vector<Place> places = measuredPlaces(visit);
    if (std::find(places.begin(), places.end(), place) == places.end())
        return NoWearScore{fmt::format("No photo of the {} could be measured.", placeWord(place)),
                           "Add a photo of it with the card in view."};
    const auto since = sinceClean(visit);
    if (!since || !(since->value() > 0.0))
        return NoWearScore{"The distance since the last documented clean is not known, so there is "
                           "no rate to score.",
                           fmt::format("If you know it: swarfbook observe --visit {} since-clean "
                                       "30000km. From this visit on it can be known.",
                                       visit.visitId)};
    const VisitSample sample = sampleOf(visit, place);
    if (sample.sampling.empty())
        return NoWearScore{"How the sample was taken is not recorded, so its amount means nothing.",
                           "Say it when adding the photo: --sampling \"whole pan floor, wiped\"."};
    if (!sample.repeats.front().onWhiteCard && !(sample.repeats.front().measuredArea.value() > 0.0))
        return NoWearScore{"The photo has no measured area.", "Measure the photo again."};
    return std::nullopt;
}

bool restsOnFullMagnet(const VisitEvidence& visit, Place place, const WearScoreModel& model) {
    return model.full &&
           std::any_of(visit.samples.begin(), visit.samples.end(), [&](const DebrisSample& photo) {
               return photo.place == place && photo.finding && photo.magnet &&
                      isFull(*photo.magnet, *model.full);
           });
}

} // namespace

WearScoreResult wearScore(const VisitEvidence& visit, Place place, Millimetres floor,
                          const WearScoreModel& model) {
    if (auto none = whyNone(visit, place))
        return *none;
    WearScore score;
    score.place = place;
    score.since = *sinceClean(visit);
    score.detectionLimit = std::max(floor, floorOf(visit, place));
    const Repeats repeats = repeatsOf(visit, place, score.detectionLimit, model);
    const double mean = meanOf(repeats.loads);
    const double variance = repeats.countingVariance + repeatVariance(repeats, mean, model);
    const auto limits = limitsOf(mean, variance, repeats.unseen);
    score.value = scoreOf(mean, model);
    score.low = scoreOf(limits[0], model);
    score.high = scoreOf(limits[1], model);
    score.method = fmt::format("Pieces from {:.2f} mm up at the {}, weighted by size and type, per "
                               "{} since the last documented clean {} ago.",
                               score.detectionLimit.value(), placeWord(place),
                               distanceWords(10000.0), distanceWords(score.since.value()));
    score.atLeast = restsOnFullMagnet(visit, place, model);
    if (score.atLeast) {
        score.high = 100.0;
        score.method += " The magnet is full and gathered no more at the end, so the score is at "
                        "least this, and no trend is drawn through it.";
    }
    return score;
}

WearScoreResult wearScore(const VisitEvidence& visit, const WearScoreModel& model) {
    const std::vector<Place> places = measuredPlaces(visit);
    if (places.empty())
        return NoWearScore{"No photo of this visit could be measured.",
                           "Add a photo with the card in view."};
    constexpr double about = 2.0; // as fine, for what a score is worth; ours
    Millimetres finest = floorOf(visit, places.front());
    for (const Place place : places)
        finest = std::min(finest, floorOf(visit, place));
    const auto best = std::find_if(places.begin(), places.end(), [&](Place place) {
        return floorOf(visit, place) <= finest * about;
    });
    return wearScore(visit, *best, Millimetres(), model);
}

nlohmann::ordered_json toJson(const WearScoreResult& result) {
    if (const auto* none = std::get_if<NoWearScore>(&result))
        return {{"value", nullptr}, {"why", none->why}, {"advice", none->advice}};
    const auto& score = std::get<WearScore>(result);
    return {{"value", score.value},
            {"interval_95", {score.low, score.high}},
            {"since_clean_km", score.since.value()},
            {"size_floor_mm", score.detectionLimit.value()},
            {"place", placeName(score.place)},
            {"method", score.method},
            {"at_least", score.atLeast}};
}

} // namespace swarfbook

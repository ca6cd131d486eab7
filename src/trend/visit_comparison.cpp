// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "trend/visit_comparison.h"

#include "base/errors.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace swarfbook {
namespace {

constexpr double significanceOfChange = 0.05;
/// Trade size classes by longest side (our proposal, no source): a step up is worth a word.
constexpr std::array<double, 4> tradeClassFromMm{0.1, 0.5, 1.0, 3.0};

std::size_t tradeClass(Millimetres size) {
    return static_cast<std::size_t>(
        std::count_if(tradeClassFromMm.begin(), tradeClassFromMm.end(),
                      [&](double from) { return size.value() >= from; }));
}

void refuse(const std::string& why) {
    throw EvidenceRefused(why);
}

void refuseUnlikeSamples(const VisitSample& before, const VisitSample& after) {
    if (before.repeats.empty() || after.repeats.empty())
        throw std::logic_error("a comparison needs a measured photo on both sides");
    if (before.place != after.place)
        refuse(fmt::format("Visit {} has photos of the {}, visit {} of the {}. Only the same place "
                           "can be compared.",
                           before.visitId, placeWord(before.place), after.visitId,
                           placeWord(after.place)));
    if (before.sampling != after.sampling)
        refuse(fmt::format("The two samples were taken differently (visit {}: \"{}\", visit {}: "
                           "\"{}\"), so their counts cannot be compared. Take the next one the "
                           "same way.",
                           before.visitId, before.sampling.empty() ? "not said" : before.sampling,
                           after.visitId, after.sampling.empty() ? "not said" : after.sampling));
    if (before.repeats.front().onWhiteCard != after.repeats.front().onWhiteCard)
        refuse("One visit shows the whole sample on the white card, the other a part of the place "
               "in the frame. Take the next photo the same way.");
    for (const VisitSample* sample : {&before, &after})
        if (!sample->since || !(sample->since->value() > 0.0))
            refuse(fmt::format("The distance since the last documented clean is not known for "
                               "visit {0}, so there is no rate to compare. If you know it: "
                               "swarfbook observe --visit {0} since-clean 30000km",
                               sample->visitId));
}

Millimetres floorOf(const VisitSample& sample) {
    Millimetres floor;
    for (const DebrisFinding& finding : sample.repeats)
        floor = std::max(floor, finding.detectionLimit);
    return floor;
}

long countFrom(const DebrisFinding& finding, Millimetres floor, std::optional<ParticleType> type) {
    return std::count_if(finding.particles.begin(), finding.particles.end(),
                         [&](const Particle& p) {
                             return p.maxFeret.value >= floor && (!type || p.type == *type) &&
                                    (finding.onWhiteCard || !p.atEdge);
                         });
}

/// 100 cm2 x 10,000 km for a frame, samples x 10,000 km for a white card. Pieces near a frame's
/// edge are under-counted; the mean edge weight of the finding shrinks its area accordingly.
double exposureOf(const DebrisFinding& finding, Kilometres since) {
    const double distance = since.value() / 10000.0;
    if (finding.onWhiteCard)
        return distance;
    double seen = 0.0, weighted = 0.0;
    for (const ClassCount& c : finding.counts) {
        if (c.to <= toMicrometres(finding.detectionLimit))
            continue;
        seen += c.count;
        weighted += c.weighted;
    }
    const double edgeWeight = seen > 0.0 && weighted > seen ? weighted / seen : 1.0;
    return finding.measuredArea.value() / 100.0 / edgeWeight * distance;
}

/// The repeat with the median count stands for the sample: repeats are not further samples.
const DebrisFinding& typical(const VisitSample& sample, Millimetres floor) {
    std::vector<const DebrisFinding*> sorted;
    for (const DebrisFinding& finding : sample.repeats)
        sorted.push_back(&finding);
    const auto middle = sorted.begin() + static_cast<std::ptrdiff_t>((sorted.size() - 1) / 2);
    std::nth_element(sorted.begin(), middle, sorted.end(), [&](const auto* a, const auto* b) {
        return countFrom(*a, floor, {}) < countFrom(*b, floor, {});
    });
    return **middle;
}

std::optional<LargestPiece> largestOf(const DebrisFinding& finding, Millimetres floor) {
    std::optional<LargestPiece> largest;
    for (const Particle& p : finding.particles)
        if (p.maxFeret.value >= floor && p.type != ParticleType::fibre && // towel lint is no wear
            (!largest || p.maxFeret.value > largest->longestSide.value))
            largest = LargestPiece{p.maxFeret, p.type};
    return largest;
}

bool isLarger(const std::optional<LargestPiece>& now, const std::optional<LargestPiece>& then) {
    const auto size = [](const std::optional<LargestPiece>& piece) {
        return tradeClass(piece ? piece->longestSide.value : Millimetres());
    };
    return size(now) > size(then);
}

/// "2.3 ± 0.4 mm (lining)".
std::string told(const std::optional<LargestPiece>& piece) {
    if (!piece)
        return "none";
    return fmt::format("{:.1f} ± {:.1f} mm ({})", piece->longestSide.value.value(),
                       2.0 * piece->longestSide.standardUncertainty.value(), typeWord(piece->type));
}

TypeChange changeOf(std::optional<ParticleType> type, const CountOver& before,
                    const CountOver& after) {
    TypeChange change{type, before, after, compareRates(after, before), false};
    change.proven = change.comparison.pTwoSided < significanceOfChange &&
                    (change.comparison.low > 1.0 || change.comparison.high < 1.0);
    return change;
}

std::string sentenceOf(const VisitComparison& c) {
    const TypeChange& all = c.changes.front();
    std::string text = fmt::format("{} pieces of {:.2f} mm or more then, {} now", all.before.count,
                                   c.detectionLimit.value(), all.after.count);
    if (!all.comparison.ratio)
        text += all.after.count == 0 ? ": nothing to compare." : ": none before, so no ratio.";
    else if (std::isinf(all.comparison.high))
        text += ".";
    else
        text += fmt::format("; for the same distance driven{} that is {:.1f} times as many (95 %: "
                            "{:.1f} to {:.1f}).",
                            c.perSample ? "" : " and the same area", *all.comparison.ratio,
                            all.comparison.low, all.comparison.high);
    if (all.proven)
        text += all.comparison.low > 1.0 ? " Debris is building up faster."
                                         : " Debris is building up more slowly.";
    else
        text += " The difference may be chance.";
    if (c.stepUpInSize)
        text += fmt::format(" The largest piece was {} then and is {} now.", told(c.largestBefore),
                            told(c.largestAfter));
    return text;
}

} // namespace

VisitComparison compareVisits(const VisitSample& before, const VisitSample& after) {
    refuseUnlikeSamples(before, after);
    VisitComparison result;
    result.before = before.visitId;
    result.after = after.visitId;
    result.place = before.place;
    result.detectionLimit = std::max(floorOf(before), floorOf(after));
    const DebrisFinding& then = typical(before, result.detectionLimit);
    const DebrisFinding& now = typical(after, result.detectionLimit);
    result.perSample = then.onWhiteCard;
    const double overThen = exposureOf(then, *before.since);
    const double overNow = exposureOf(now, *after.since);
    if (!(overThen > 0.0) || !(overNow > 0.0))
        refuse("One of the photos has no measured area. Measure that visit's photo again.");
    const auto add = [&](std::optional<ParticleType> type) {
        const CountOver first{countFrom(then, result.detectionLimit, type), overThen};
        const CountOver second{countFrom(now, result.detectionLimit, type), overNow};
        if (!type || first.count + second.count > 0)
            result.changes.push_back(changeOf(type, first, second));
    };
    add(std::nullopt);
    for (int type = 0; type < particleTypeCount; ++type)
        add(static_cast<ParticleType>(type));
    result.largestBefore = largestOf(then, result.detectionLimit);
    result.largestAfter = largestOf(now, result.detectionLimit);
    result.stepUpInSize = isLarger(result.largestAfter, result.largestBefore);
    result.sentence = sentenceOf(result);
    return result;
}

} // namespace swarfbook

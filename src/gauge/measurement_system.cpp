// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "gauge/measurement_system.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <stdexcept>

namespace swarfbook {
namespace {

/// Mean and standard deviation of the range of 2, 3, ... 10 normal values, in their standard
/// deviations: d2 and d3 of the tables for control charts (ASTM E2587, from memory).
constexpr std::array<double, 9> meanRangeOf{1.12838, 1.69257, 2.05875, 2.32593, 2.53441,
                                            2.70436, 2.84720, 2.97003, 3.07751};
constexpr std::array<double, 9> spreadOfRangeOf{0.85250, 0.88837, 0.87981, 0.86408, 0.84804,
                                                0.83321, 0.81983, 0.80783, 0.79705};
constexpr std::size_t manyRanges = 16; // from here on the manual takes d2 itself

/// Divisor that turns a mean of `ranges` ranges of `n` values into their standard deviation (d2*,
/// by Patnaik's approximation, which gives the manual's constants to their last figure).
double rangeDivisor(std::size_t n, std::size_t ranges) {
    const double d2 = meanRangeOf.at(n - 2);
    const double d3 = spreadOfRangeOf.at(n - 2);
    return ranges >= manyRanges ? d2 : std::sqrt(d2 * d2 + d3 * d3 / static_cast<double>(ranges));
}

double rangeOf(std::span<const double> values) {
    const auto [low, high] = std::minmax_element(values.begin(), values.end());
    return *high - *low;
}

double meanOf(std::span<const double> values) {
    double sum = 0.0;
    for (const double value : values)
        sum += value;
    return sum / static_cast<double>(values.size());
}

void require(const GaugeReadings& readings) {
    constexpr std::size_t most = 10;
    const auto within = [](std::size_t n, std::size_t least) { return n >= least && n <= most; };
    if (!within(readings.size(), 1) || !within(readings[0].size(), 1))
        throw std::logic_error("a gauge study takes 1 to 10 people and 1 to 10 things");
    for (const auto& person : readings)
        for (const auto& trials : person)
            if (person.size() != readings[0].size() || !within(trials.size(), 2) ||
                trials.size() != readings[0][0].size())
                throw std::logic_error("a gauge study takes as many readings of each");
}

struct Means {
    std::vector<double> ofPeople, ofThings, ranges;
};

Means meansOf(const GaugeReadings& readings) {
    Means means;
    means.ofThings.assign(readings[0].size(), 0.0);
    for (const auto& person : readings) {
        std::vector<double> own;
        for (std::size_t thing = 0; thing < person.size(); ++thing) {
            own.push_back(meanOf(person[thing]));
            means.ranges.push_back(rangeOf(person[thing]));
            means.ofThings[thing] += own.back() / static_cast<double>(readings.size());
        }
        means.ofPeople.push_back(meanOf(own));
    }
    return means;
}

} // namespace

GaugeStudy studyGauge(const GaugeReadings& readings) {
    require(readings);
    const std::size_t people = readings.size();
    const std::size_t things = readings[0].size();
    const std::size_t trials = readings[0][0].size();
    const Means means = meansOf(readings);
    GaugeStudy study;
    study.people = static_cast<int>(people);
    study.things = static_cast<int>(things);
    study.trials = static_cast<int>(trials);
    study.meanRange = meanOf(means.ranges);
    study.personDifference = rangeOf(means.ofPeople);
    study.thingRange = rangeOf(means.ofThings);
    study.repeatability = study.meanRange / rangeDivisor(trials, means.ranges.size());
    if (people > 1) {
        const double between = study.personDifference / rangeDivisor(people, 1);
        const double chance =
            study.repeatability * study.repeatability / static_cast<double>(things * trials);
        study.reproducibility = std::sqrt(std::max(0.0, between * between - chance));
    }
    study.both = std::hypot(study.repeatability, study.reproducibility);
    if (things > 1) {
        study.thingVariation = study.thingRange / rangeDivisor(things, 1);
        if (study.both > 0.0)
            study.distinct = static_cast<int>(1.41 * study.thingVariation / study.both);
    }
    study.total = std::hypot(study.both, study.thingVariation);
    return study;
}

} // namespace swarfbook

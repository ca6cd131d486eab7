// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "trend/trend.h"

#include "base/errors.h"
#include "base/median.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace swarfbook {
namespace {

constexpr std::size_t fewestForTrend = 4;
constexpr std::size_t fewestForProjection = 3;
constexpr double significanceOfTrend = 0.05;

std::vector<double> heights(const std::vector<TrendPoint>& points) {
    std::vector<double> y;
    for (const TrendPoint& point : points)
        y.push_back(point.y);
    return y;
}

std::string sentenceOf(const MannKendall& test, bool significant, std::size_t visits) {
    const char* way = test.s > 0 ? "rising" : "falling";
    if (significant)
        return fmt::format("{} over {} visits (chance: less than 1 in {}).",
                           test.s > 0 ? "Rising" : "Falling", visits,
                           static_cast<int>(1.0 / test.pTwoSided));
    if (test.s == 0)
        return fmt::format("Neither rising nor falling over {} visits.", visits);
    return fmt::format("Perhaps {}, but {} visits cannot prove it (chance: {:.0f} in 100).", way,
                       visits, std::max(1.0, std::round(100.0 * test.pTwoSided)));
}

} // namespace

Trend trendOf(const std::vector<TrendPoint>& points) {
    if (points.size() < fewestForTrend)
        throw EvidenceRefused(fmt::format(
            "A trend needs at least four visits that can be compared; there {} {}. Until then, "
            "compare two visits.",
            points.size() == 1 ? "is" : "are", points.size()));
    Trend trend;
    trend.line = theilSen(points);
    trend.test = mannKendall(heights(points));
    trend.significant = trend.test.pTwoSided < significanceOfTrend;
    trend.sentence = sentenceOf(trend.test, trend.significant, points.size());
    return trend;
}

Projection project(const std::vector<TrendPoint>& points, double x) {
    if (points.size() < fewestForProjection)
        throw EvidenceRefused(fmt::format(
            "Looking ahead needs at least three visits that can be compared; there {} {}.",
            points.size() == 1 ? "is" : "are", points.size()));
    std::vector<double> at;
    for (const TrendPoint& point : points)
        at.push_back(point.x);
    const auto [first, last] = std::minmax_element(at.begin(), at.end());
    if (x > *last + (*last - *first))
        throw EvidenceRefused("That is further ahead than these visits reach back. Ask for a "
                              "nearer distance, or wait for another visit.");
    const TheilSen line = theilSen(points);
    const double middleX = medianOf(at), middleY = medianOf(heights(points));
    const auto through = [&](double slope) {
        return std::max(0.0, middleY + slope * (x - middleX));
    };
    Projection ahead;
    ahead.value = through(line.slope);
    ahead.low = std::min(through(line.slopeLow), through(line.slopeHigh));
    ahead.high = std::max(through(line.slopeLow), through(line.slopeHigh));
    ahead.sentence = fmt::format("If it goes on as over these {} visits, it will be {:.1f}; "
                                 "anything from {:.1f} to {:.1f} would fit them.",
                                 points.size(), ahead.value, ahead.low, ahead.high);
    return ahead;
}

} // namespace swarfbook

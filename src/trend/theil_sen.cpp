// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/median.h"
#include "trend/trend.h"

#include <boost/math/distributions/normal.hpp>

#include <cmath>
#include <map>
#include <stdexcept>

namespace swarfbook {
namespace {

double tieTerm(const std::vector<double>& values) {
    std::map<double, double> groups;
    for (const double value : values)
        groups[value] += 1.0;
    double sum = 0.0;
    for (const auto& group : groups)
        sum += group.second * (group.second - 1.0) * (2.0 * group.second + 5.0);
    return sum;
}

std::vector<double> pairSlopes(const std::vector<TrendPoint>& points) {
    std::vector<double> slopes;
    for (std::size_t i = 0; i < points.size(); ++i)
        for (std::size_t j = i + 1; j < points.size(); ++j)
            if (points[i].x != points[j].x)
                slopes.push_back((points[j].y - points[i].y) / (points[j].x - points[i].x));
    std::sort(slopes.begin(), slopes.end());
    return slopes;
}

} // namespace

TheilSen theilSen(const std::vector<TrendPoint>& points, double confidence) {
    const std::vector<double> slopes = pairSlopes(points);
    if (slopes.empty())
        throw std::logic_error("a line needs points at two different x");
    std::vector<double> x, y;
    for (const TrendPoint& point : points) {
        x.push_back(point.x);
        y.push_back(point.y);
    }
    TheilSen line;
    line.slope = medianOf(slopes);
    line.intercept = medianOf(y) - line.slope * medianOf(x);
    // Sen 1968, eq. 2.6, with the ranks rounded to whole slopes.
    const double n = static_cast<double>(points.size());
    const double variance = (n * (n - 1.0) * (2.0 * n + 5.0) - tieTerm(x) - tieTerm(y)) / 18.0;
    const double z = quantile(boost::math::normal(), 0.5 + confidence / 2.0);
    const double reach = z * std::sqrt(std::max(variance, 0.0));
    const double pairs = static_cast<double>(slopes.size());
    const long last = static_cast<long>(slopes.size()) - 1;
    const long low = std::lrint((pairs - reach) / 2.0) - 1;
    const long high = std::lrint((pairs + reach) / 2.0);
    line.slopeLow = slopes[static_cast<std::size_t>(std::clamp(low, 0L, last))];
    line.slopeHigh = slopes[static_cast<std::size_t>(std::clamp(high, 0L, last))];
    return line;
}

} // namespace swarfbook

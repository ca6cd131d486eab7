// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "trend/trend.h"

#include <boost/math/distributions/normal.hpp>

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <map>
#include <stdexcept>

namespace swarfbook {
namespace {

constexpr std::size_t largestExact = 10; // 10! fits comfortably into 64 bits

std::map<double, long> tieGroups(const std::vector<double>& y) {
    std::map<double, long> groups;
    for (const double value : y)
        ++groups[value];
    return groups;
}

long risesMinusFalls(const std::vector<double>& y) {
    long s = 0;
    for (std::size_t i = 0; i < y.size(); ++i)
        for (std::size_t j = i + 1; j < y.size(); ++j)
            s += (y[j] > y[i]) - (y[j] < y[i]);
    return s;
}

double varianceOfS(std::size_t size, const std::map<double, long>& groups) {
    const double n = static_cast<double>(size);
    double sum = n * (n - 1.0) * (2.0 * n + 5.0);
    for (const auto& group : groups) {
        const double t = static_cast<double>(group.second);
        sum -= t * (t - 1.0) * (2.0 * t + 5.0);
    }
    return sum / 18.0;
}

/// Polynomial in q whose coefficients count arrangements by their number of falling pairs.
using FallingPairs = std::vector<std::int64_t>;

/// times 1 + q + ... + q^(terms - 1)
FallingPairs timesRun(const FallingPairs& p, std::size_t terms) {
    FallingPairs product(p.size() + terms - 1, 0);
    for (std::size_t i = 0; i < p.size(); ++i)
        for (std::size_t k = 0; k < terms; ++k)
            product[i + k] += p[i];
    return product;
}

/// divided by 1 + q + ... + q^(terms - 1), which must divide it
FallingPairs overRun(FallingPairs p, std::size_t terms) {
    FallingPairs quotient(p.size() - terms + 1, 0);
    for (std::size_t i = 0; i < quotient.size(); ++i) {
        quotient[i] = p[i];
        for (std::size_t k = 0; k < terms; ++k)
            p[i + k] -= quotient[i];
    }
    return quotient;
}

/// Arrangements of the values with their ties, by falling pairs: the Gaussian multinomial.
FallingPairs arrangements(std::size_t n, const std::map<double, long>& groups) {
    FallingPairs p{1};
    for (std::size_t j = 2; j <= n; ++j)
        p = timesRun(p, j);
    for (const auto& group : groups)
        for (std::size_t j = 2; j <= static_cast<std::size_t>(group.second); ++j)
            p = overRun(std::move(p), j);
    return p;
}

/// P(S >= s) and P(|S| >= |s|) exactly.
void exactChances(std::size_t n, const std::map<double, long>& groups, MannKendall& result) {
    const FallingPairs counts = arrangements(n, groups);
    const long untiedPairs = static_cast<long>(counts.size()) - 1;
    const long size = std::abs(result.s);
    double all = 0.0, atLeast = 0.0, asFar = 0.0;
    for (std::size_t falls = 0; falls < counts.size(); ++falls) {
        const long s = untiedPairs - 2 * static_cast<long>(falls);
        const double count = static_cast<double>(counts[falls]);
        all += count;
        atLeast += s >= size ? count : 0.0;
        asFar += std::abs(s) >= size ? count : 0.0;
    }
    result.pOneSided = atLeast / all;
    result.pTwoSided = asFar / all;
    result.exact = true;
}

} // namespace

MannKendall mannKendall(const std::vector<double>& y) {
    if (y.size() < 2)
        throw std::logic_error("a trend test needs at least two values");
    MannKendall result;
    const auto groups = tieGroups(y);
    result.s = risesMinusFalls(y);
    result.variance = varianceOfS(y.size(), groups);
    const double s = static_cast<double>(result.s);
    if (result.s != 0)
        result.z = (s - (s > 0 ? 1.0 : -1.0)) / std::sqrt(result.variance);
    if (y.size() <= largestExact) {
        exactChances(y.size(), groups, result);
    } else {
        const double tail = cdf(complement(boost::math::normal(), std::abs(result.z)));
        result.pOneSided = tail;
        result.pTwoSided = std::min(1.0, 2.0 * tail);
    }
    return result;
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "trend/rates.h"

#include <boost/math/distributions/binomial.hpp>
#include <boost/math/distributions/normal.hpp>

#include <cmath>
#include <limits>
#include <stdexcept>

namespace swarfbook {
namespace {

using boost::math::binomial;

/// Outcomes equally likely up to rounding are counted as no more likely (as R does).
constexpr double tieTolerance = 1.0 + 1e-7;

double sumOfNoMoreLikely(const binomial& null, long n, long seen) {
    const double limit = pdf(null, static_cast<double>(seen)) * tieTolerance;
    double sum = 0.0;
    for (long k = 0; k <= n; ++k) {
        const double chance = pdf(null, static_cast<double>(k));
        if (chance <= limit)
            sum += chance;
    }
    return std::min(sum, 1.0);
}

double ratioFromShare(double share, double exposureRatio) {
    return share >= 1.0 ? std::numeric_limits<double>::infinity()
                        : share / (1.0 - share) * exposureRatio;
}

} // namespace

RateComparison compareRates(CountOver first, CountOver second) {
    if (first.count < 0 || second.count < 0 || !(first.exposure > 0.0) || !(second.exposure > 0.0))
        throw std::logic_error("rates need counts of zero or more over a positive exposure");
    RateComparison result;
    const long n = first.count + second.count;
    if (n == 0) {
        result.high = std::numeric_limits<double>::infinity();
        return result;
    }
    const double trials = static_cast<double>(n);
    const double seen = static_cast<double>(first.count);
    const double exposureRatio = second.exposure / first.exposure;
    const binomial null(trials, first.exposure / (first.exposure + second.exposure));
    result.pLess = cdf(null, seen);
    result.pTwoSided = sumOfNoMoreLikely(null, n, first.count);
    if (second.count > 0)
        result.ratio = seen / static_cast<double>(second.count) * exposureRatio;
    constexpr double tail = 0.025;
    result.low = ratioFromShare(binomial::find_lower_bound_on_p(trials, seen, tail), exposureRatio);
    result.high =
        second.count == 0
            ? std::numeric_limits<double>::infinity()
            : ratioFromShare(binomial::find_upper_bound_on_p(trials, seen, tail), exposureRatio);
    return result;
}

ShareInterval wilsonInterval95(long successes, long n) {
    if (n < 1 || successes < 0 || successes > n)
        throw std::logic_error("a share needs 0 <= successes <= n and n >= 1");
    const double z = quantile(boost::math::normal(), 0.975);
    const double trials = static_cast<double>(n);
    const double share = static_cast<double>(successes) / trials;
    const double centre = share + z * z / (2.0 * trials);
    const double half =
        z * std::sqrt(share * (1.0 - share) / trials + z * z / (4.0 * trials * trials));
    const double scale = 1.0 + z * z / trials;
    return {successes == 0 ? 0.0 : (centre - half) / scale,
            successes == n ? 1.0 : (centre + half) / scale};
}

} // namespace swarfbook

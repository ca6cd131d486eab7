// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>

namespace swarfbook {

/// A count and what it was counted over (area, distance or their product), in any one unit.
struct CountOver {
    long count = 0;
    double exposure = 0.0;
};

/// Two Poisson rates compared exactly.
struct RateComparison {
    std::optional<double> ratio; ///< first / second; absent when both counts are zero or the second
    double low = 0.0;            ///< 95 % Clopper-Pearson limits of the ratio
    double high = 0.0;           ///< infinite when the second count is zero
    double pLess = 1.0;          ///< chance of a first count as low as seen, were the rates equal
    double pTwoSided = 1.0;      ///< sum of the outcomes no more likely than the one seen
};

/// Given n = k1 + k2, k1 is binomial(n, t1 / (t1 + t2)) when the rates are equal (Przyborowski and
/// Wilenski 1940). p and interval follow two different two-sided conventions, so near the limit one
/// may say "different" and the other not; callers call a change proven only if both agree.
///
/// @throws std::logic_error for a negative count or an exposure that is not positive.
/// Checked: tests/trend/rates_test.cpp (published data sets of R's poisson.test and
/// rateratio.test).
RateComparison compareRates(CountOver first, CountOver second);

struct ShareInterval {
    double low = 0.0;
    double high = 1.0;
};
/// Wilson's score interval of a share, 95 % (z = 1.959964).
/// @throws std::logic_error unless 0 <= successes <= n and n >= 1.
/// Checked: tests/trend/wilson_test.cpp (Newcombe 1998).
ShareInterval wilsonInterval95(long successes, long n);

} // namespace swarfbook

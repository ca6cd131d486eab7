// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

namespace swarfbook {

/// One visit's value over distance or time.
struct TrendPoint {
    double x = 0.0; ///< odometer, km
    double y = 0.0; ///< rate or score
};

struct MannKendall {
    long s = 0;             ///< pairs that rise minus pairs that fall
    double variance = 0.0;  ///< of s, corrected for ties
    double z = 0.0;         ///< with continuity correction
    double pOneSided = 1.0; ///< of a rise (s > 0) or a fall (s < 0)
    double pTwoSided = 1.0;
    bool exact = false; ///< from the exact null distribution rather than the normal one
};

/// Mann-Kendall test of the y in their order. Exact null distribution up to 10 values, by counting
/// permutations with the ties as they are; the normal approximation above.
/// @throws std::logic_error with fewer than 2 values.
/// Checked: tests/trend/mann_kendall_test.cpp (published worked examples, exact fractions).
MannKendall mannKendall(const std::vector<double>& y);

struct TheilSen {
    double slope = 0.0; ///< median of all pair slopes
    double slopeLow = 0.0, slopeHigh = 0.0;
    double intercept = 0.0; ///< median y - slope * median x
};

/// Theil-Sen line with Sen's interval of the slope at the given confidence (tie-corrected
/// variance).
/// @throws std::logic_error with fewer than 2 different x.
/// Checked: tests/trend/theil_sen_test.cpp (Sen 1968; published worked example).
TheilSen theilSen(const std::vector<TrendPoint>& points, double confidence = 0.95);

/// What several visits show together.
struct Trend {
    TheilSen line;
    MannKendall test;
    bool significant = false; ///< two-sided p below 0.05, or all of four rise: see `sentence`
    std::string sentence;
};

/// Trend of four visits or more. @throws EvidenceRefused with fewer, saying how many there are.
Trend trendOf(const std::vector<TrendPoint>& points);

struct Projection {
    double value = 0.0;
    double low = 0.0, high = 0.0; ///< by the slope's interval through the median point
    std::string sentence;
};
/// The line's value at x, with its interval. @throws EvidenceRefused for fewer than three visits,
/// or for an x further ahead than the visits reach back.
Projection project(const std::vector<TrendPoint>& points, double x);

} // namespace swarfbook

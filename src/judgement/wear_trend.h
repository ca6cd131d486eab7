// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/wear_score.h"
#include "trend/trend.h"

#include <cstdint>
#include <vector>

namespace swarfbook {

/// A visit's score at the size floor that all of them share.
struct ScoredVisit {
    std::int64_t visitId = 0;
    std::string date;
    Kilometres odometer;
    WearScore score;
};

/// Scores of all visits that can be compared with the last one at `place`: same way of sampling,
/// pad with pad, the same magnets, distance and odometer known; all at the largest of their size
/// floors. Visits that cannot be compared are left out, and so are full magnets, whose score is a
/// least amount.
std::vector<ScoredVisit> comparableScores(const Evidence& evidence, Place place,
                                          const WearScoreModel& model);

/// The same as points for trendOf and project: x odometer in km, y score.
std::vector<TrendPoint> trendPoints(const std::vector<ScoredVisit>& visits);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "particles/particle.h"
#include "trend/rates.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// One place of one visit, ready to be compared: repeats of one sample and how they were taken.
struct VisitSample {
    std::int64_t visitId = 0;
    std::string date;
    Place place = Place::pad;
    std::string sampling;               ///< "" = not said
    std::optional<Kilometres> since;    ///< last documented clean
    std::vector<DebrisFinding> repeats; ///< at least one, all measured
};

/// Pieces of one type, or of all types, at and above the common size limit.
struct TypeChange {
    std::optional<ParticleType> type; ///< absent: all together
    CountOver before, after; ///< exposure in 100 cm2 x 10,000 km (white card: samples x 10,000 km)
    RateComparison comparison; ///< after / before
    bool proven = false;       ///< p below 0.05 and the interval excludes 1
};

/// The longest piece of a visit, threads apart.
struct LargestPiece {
    Measured<Millimetres> longestSide; ///< maximum Feret
    ParticleType type = ParticleType::unidentified;
};

/// Two visits at their common size limit.
struct VisitComparison {
    std::int64_t before = 0, after = 0; ///< visit ids
    Place place = Place::pad;
    Millimetres detectionLimit;      ///< the larger of the two
    bool perSample = false;          ///< white card: whole sample; else per measured area
    std::vector<TypeChange> changes; ///< all together first, then each type seen at either visit
    std::optional<LargestPiece> largestBefore, largestAfter; ///< absent: no such piece
    bool stepUpInSize = false; ///< a larger trade size class than before
    std::string sentence;      ///< plain words
};

/// Compares like with like. @throws EvidenceRefused saying why and what would help: another place,
/// another way of sampling, frame against white card, or an unknown distance since the last clean.
/// Checked: tests/trend/visit_comparison_test.cpp.
VisitComparison compareVisits(const VisitSample& before, const VisitSample& after);

} // namespace swarfbook

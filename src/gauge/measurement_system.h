// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// Readings of several things by several people, each the same number of times:
/// readings[person][thing][trial], any one unit.
using GaugeReadings = std::vector<std::vector<std::vector<double>>>;

/// The spread of the readings by cause, as standard deviations in the readings' unit.
struct GaugeStudy {
    int people = 0, things = 0, trials = 0;
    double meanRange = 0.0;        ///< of one person's trials on one thing
    double personDifference = 0.0; ///< between the largest and smallest mean of a person
    double thingRange = 0.0;       ///< between the largest and smallest mean of a thing
    double repeatability = 0.0;    ///< equipment variation: one person, one thing, again
    double reproducibility = 0.0;  ///< appraiser variation: 0 where repeatability explains it all
    double both = 0.0;             ///< repeatability and reproducibility together
    double thingVariation = 0.0;   ///< 0 with one thing
    double total = 0.0;
    std::optional<int> distinct; ///< number of distinct categories; nothing with one thing
};

/// The average-and-range study of a measurement system.
///
/// Ranges become standard deviations by the expected range of normal samples; for fewer than 16
/// ranges by its value for a mean of so few.
/// @param readings  1 to 10 people, 1 to 10 things, 2 to 10 trials, the same for all; throws
///                  std::logic_error otherwise. With one person reproducibility is 0.
/// Source: AIAG, Measurement systems analysis, 4th edition, average and range method.
/// Checked: tests/gauge/measurement_system_test.cpp (that manual's example to its printed figures).
GaugeStudy studyGauge(const GaugeReadings& readings);

} // namespace swarfbook

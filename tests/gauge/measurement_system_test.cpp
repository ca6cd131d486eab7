// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "gauge/measurement_system.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <stdexcept>

using namespace swarfbook;

namespace {

/// The worked example of AIAG, Measurement systems analysis, 4th edition, figures III-B 6 and
/// III-B 15: three people, three trials, ten parts. [person][trial][part] as printed.
const std::vector<std::vector<std::vector<double>>> printed{
    {{0.29, -0.56, 1.34, 0.47, -0.80, 0.02, 0.59, -0.31, 2.26, -1.36},
     {0.41, -0.68, 1.17, 0.50, -0.92, -0.11, 0.75, -0.20, 1.99, -1.25},
     {0.64, -0.58, 1.27, 0.64, -0.84, -0.21, 0.66, -0.17, 2.01, -1.31}},
    {{0.08, -0.47, 1.19, 0.01, -0.56, -0.20, 0.47, -0.63, 1.80, -1.68},
     {0.25, -1.22, 0.94, 1.03, -1.20, 0.22, 0.55, 0.08, 2.12, -1.62},
     {0.07, -0.68, 1.34, 0.20, -1.28, 0.06, 0.83, -0.34, 2.19, -1.50}},
    {{0.04, -1.38, 0.88, 0.14, -1.46, -0.29, 0.02, -0.46, 1.77, -1.49},
     {-0.11, -1.13, 1.09, 0.20, -1.07, -0.67, 0.01, -0.56, 1.45, -1.77},
     {-0.15, -0.96, 0.67, 0.11, -1.45, -0.49, 0.21, -0.49, 1.87, -2.16}}};

GaugeReadings byThing(const std::vector<std::vector<std::vector<double>>>& byTrial) {
    GaugeReadings readings;
    for (const auto& person : byTrial) {
        auto& own = readings.emplace_back(person[0].size());
        for (const auto& trial : person)
            for (std::size_t thing = 0; thing < trial.size(); ++thing)
                own[thing].push_back(trial[thing]);
    }
    return readings;
}

double percentOf(double part, double whole) {
    return 100.0 * part / whole;
}

} // namespace

TEST_CASE("the manual's example comes out as printed") {
    const GaugeStudy s = studyGauge(byThing(printed));
    // Printed to four or five figures with constants of four: half a last digit of those.
    CHECK(s.meanRange == Approx(0.3417).margin(0.00005));
    CHECK(s.personDifference == Approx(0.4446).margin(0.0001));
    CHECK(s.thingRange == Approx(3.511).margin(0.0005));
    CHECK(s.repeatability == Approx(0.20188).margin(0.00005));
    CHECK(s.reproducibility == Approx(0.22963).margin(0.00006));
    CHECK(s.both == Approx(0.30575).margin(0.00006));
    CHECK(s.thingVariation == Approx(1.10456).margin(0.0002));
    CHECK(s.total == Approx(1.14610).margin(0.0002));
    CHECK(percentOf(s.repeatability, s.total) == Approx(17.62).margin(0.01));
    CHECK(percentOf(s.reproducibility, s.total) == Approx(20.04).margin(0.01));
    CHECK(percentOf(s.both, s.total) == Approx(26.68).margin(0.01));
    CHECK(percentOf(s.thingVariation, s.total) == Approx(96.38).margin(0.01));
    CHECK(s.distinct == 5);
}

TEST_CASE("one thing and one person give repeatability alone") {
    // The range of two readings is |x1 - x2|, and E|x1 - x2|^2 = 2 sigma^2: divisor sqrt 2 for one
    // range.
    const GaugeStudy s = studyGauge({{{2.00, 2.02}}});
    CHECK(s.repeatability == Approx(0.02 / std::sqrt(2.0)).epsilon(1e-4));
    CHECK(s.reproducibility == 0.0);
    CHECK(s.thingVariation == 0.0);
    CHECK_FALSE(s.distinct);
}

// Outside truth: readings drawn with known standard deviations.
TEST_CASE("known spreads are found again on average") {
    std::mt19937 random(7);
    std::normal_distribution<double> normal;
    constexpr double again = 0.02, between = 0.03;
    double squaresAgain = 0.0, squaresBetween = 0.0;
    constexpr int studies = 4000;
    for (int i = 0; i < studies; ++i) {
        GaugeReadings readings(3, std::vector<std::vector<double>>(1));
        for (auto& person : readings) {
            const double bias = between * normal(random);
            for (int trial = 0; trial < 3; ++trial)
                person[0].push_back(2.0 + bias + again * normal(random));
        }
        const GaugeStudy s = studyGauge(readings);
        squaresAgain += s.repeatability * s.repeatability / studies;
        squaresBetween += s.reproducibility * s.reproducibility / studies;
    }
    CHECK(std::sqrt(squaresAgain) == Approx(again).epsilon(0.03));
    // Negative variances are cut at zero, which lifts the mean a little.
    CHECK(std::sqrt(squaresBetween) == Approx(between).epsilon(0.06));
}

TEST_CASE("uneven readings are the caller's mistake") {
    CHECK_THROWS_AS(studyGauge({}), std::logic_error);
    CHECK_THROWS_AS(studyGauge({{{1.0}}}), std::logic_error);
    CHECK_THROWS_AS(studyGauge({{{1.0, 1.1}}, {{1.0, 1.1, 1.2}}}), std::logic_error);
    CHECK_THROWS_AS(studyGauge({{{1.0, 1.1}}, {{1.0, 1.1}, {2.0, 2.1}}}), std::logic_error);
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/elimination.h"
#include "judgement/scenario.h"
#include "judgement/sensitivity.h"

#include <fmt/format.h>

#include <algorithm>
#include <ctime>
#include <exception>
#include <filesystem>
#include <iostream>
#include <vector>

// Times the elimination of an invented ten-speed unit with eight solenoids and twelve observations
// that no single part explains, so that pairs are searched, and a suggestion with all it would take
// to turn it. Exit code 1 when the median of either takes more than 50 ms of processor time, which
// a busy machine lengthens less than the clock's time.
namespace {

using namespace swarfbook;

constexpr double mostMilliseconds = 50.0;
constexpr int repeats = 41;

/// Six elements, three of them in each gear: the ten forward gears and reverse are all unlike.
ApplicationChart tenSpeed() {
    ApplicationChart chart;
    chart.unit = "Ten";
    for (const char* name : {"A", "B", "C", "D", "E", "F"}) {
        chart.elements.push_back({name, ElementKind::clutch});
        ApplicationChart::Solenoid solenoid;
        solenoid.name = std::string("s") + name;
        solenoid.siblings = "all";
        solenoid.feeds = {{name, true}};
        chart.solenoids.push_back(solenoid);
        chart.bores.push_back({std::string("regulator ") + name, {}, solenoid.name, {name}});
    }
    for (const char* name : {"line", "converter"}) {
        ApplicationChart::Solenoid solenoid;
        solenoid.name = name;
        solenoid.common = true;
        chart.solenoids.push_back(solenoid);
        chart.bores.push_back({std::string(name) + " regulator", {}, name, {}});
    }
    const std::vector<std::pair<std::string, std::string>> rows{
        {"R", "ABF"}, {"1", "ABD"}, {"2", "ABC"}, {"3", "BCD"}, {"4", "BCE"}, {"5", "BDE"},
        {"6", "CDE"}, {"7", "CDF"}, {"8", "CEF"}, {"9", "DEF"}, {"10", "AEF"}};
    for (const auto& [name, holders] : rows) {
        ApplicationChart::Gear gear;
        gear.name = name;
        for (const char e : holders) {
            gear.elements[std::string(1, e)] = Applied::yes;
            gear.solenoids[std::string("s") + e] = SolenoidCommand::modulated;
        }
        for (const ApplicationChart::Solenoid& s : chart.solenoids)
            if (!s.common && !gear.solenoids.contains(s.name))
                gear.solenoids[s.name] = SolenoidCommand::off;
        chart.gears.push_back(gear);
    }
    return chart;
}

/// Nine gears and three shifts; 2 and 9 share nothing that the good gear 4 does not clear.
EliminationEvidence twelveObservations() {
    const Driven alike{Load::firm, Warmth::hot}, light{Load::light, Warmth::hot};
    EliminationEvidence evidence;
    const auto gear = [&](const char* name, bool good, const Driven& driven) {
        evidence.gears.push_back({name, good ? GearResult::good : GearResult::slips, driven,
                                  std::string("gear ") + name});
    };
    for (const char* bad : {"2", "9", "10"})
        gear(bad, false, alike);
    gear("4", true, alike);
    for (const char* good : {"R", "5", "6", "7", "8"})
        gear(good, true, light);
    evidence.shifts = {{"8", "9", ShiftResult::flares, alike, "flare at the shift 8-9"},
                       {"2", "3", ShiftResult::flares, alike, "flare at the shift 2-3"},
                       {"4", "5", ShiftResult::good, light, "good at the shift 4-5"}};
    return evidence;
}

/// Milliseconds of processor time of each of `repeats` runs, in rising order.
template <class Work> std::vector<double> timesOf(const Work& work) {
    std::vector<double> took;
    for (int i = 0; i < repeats; ++i) {
        const std::clock_t start = std::clock();
        work();
        took.push_back(1000.0 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
    }
    std::sort(took.begin(), took.end());
    return took;
}

/// Prints the times; whether the median is within the limit.
bool report(const std::string& what, const std::vector<double>& took) {
    const double median = took[took.size() / 2];
    std::cout << fmt::format(
        "{}\n  median {:.2f} ms of processor time, slowest {:.2f} ms (at most {:.0f} ms allowed)\n",
        what, median, took.back(), mostMilliseconds);
    return median <= mostMilliseconds;
}

bool timeElimination() {
    const BenchTests tests =
        loadBenchTests(std::filesystem::path(SWARFBOOK_SOURCE_DIR) / "models/bench-tests.json");
    const ApplicationChart chart = tenSpeed();
    const EliminationEvidence evidence = twelveObservations();
    Elimination e;
    const auto took = timesOf([&] { e = eliminate(chart, evidence, tests); });
    if (!e.pairs || e.explanations.empty())
        throw std::runtime_error("the story no longer needs pairs: time something else");
    return report(fmt::format("elimination of {} speeds, {} solenoids, {} observations: {} pairs "
                              "of {} parts, {} tests weighed",
                              chart.gears.size() - 1, chart.solenoids.size(),
                              evidence.gears.size() + evidence.shifts.size(), e.explanations.size(),
                              e.parts.size(), e.tests.size()),
                  took);
}

bool timeSuggestion() {
    const Evidence evidence = test::scenario("18").evidence;
    Suggestion s;
    const auto took = timesOf([&] { s = suggestWithTurns(evidence, test::suggestionModel()); });
    if (s.turns.empty())
        throw std::runtime_error("nothing turns this suggestion: time another one");
    return report(fmt::format("suggestion from {} observations, with {} ways to turn it",
                              evidence.now.observations.size(), s.turns.size()),
                  took);
}

} // namespace

int main() {
    try {
        const bool eliminated = timeElimination(), suggested = timeSuggestion();
        return eliminated && suggested ? 0 : 1;
    } catch (const std::exception& e) {
        std::cerr << "elimination_benchmark: " << e.what() << "\n";
        return 3;
    }
}

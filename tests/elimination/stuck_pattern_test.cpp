// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/charts.h"

#include <catch2/catch.hpp>

#include <random>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

std::vector<std::string> named(const std::vector<StuckMatch>& matches) {
    std::vector<std::string> names;
    for (const StuckMatch& match : matches)
        names.push_back(match.solenoid + (match.on ? " on" : " off"));
    return names;
}

/// A chart of forward gears with every pattern its own; solenoids feed nothing here.
ApplicationChart drawnChart(std::mt19937& dice, int gears, int solenoids) {
    ApplicationChart chart;
    for (int s = 1; s <= solenoids; ++s) {
        ApplicationChart::Solenoid solenoid;
        solenoid.name = "s" + std::to_string(s);
        chart.solenoids.push_back(solenoid);
    }
    std::set<std::string> used;
    while (static_cast<int>(used.size()) < gears) {
        std::string states;
        for (int s = 0; s < solenoids; ++s)
            states += dice() % 2 == 0 ? '0' : '1';
        if (used.insert(states).second)
            chart.gears.push_back(gearRow(std::to_string(used.size()), "P", states));
    }
    return chart;
}

/// What the drawn chart gives, by comparing whole patterns letter for letter.
std::string obtainedByHand(const ApplicationChart& chart, const std::string& commanded,
                           const std::string& stuck, bool on) {
    auto states = chart.gear(commanded)->solenoids;
    states[stuck] = on ? SolenoidCommand::on : SolenoidCommand::off;
    for (const ApplicationChart::Gear& row : chart.gears)
        if (row.solenoids == states)
            return row.name;
    return "";
}

} // namespace

// Worked check of an invented unit, computed by hand from its table.
TEST_CASE("a wrong gear names the one solenoid that causes it") {
    const ApplicationChart chart = workedChart();
    CHECK(named(stuckMatches(chart, {{"2", "3"}})) == Names{"s2 off"});
    CHECK(named(stuckMatches(chart, {{"2", "4"}})) == Names{"s1 off"});
    CHECK(named(stuckMatches(chart, {{"1", "3"}})) == Names{"s3 off"});
}

TEST_CASE("a stuck solenoid predicts what other gears would do") {
    const auto matches = stuckMatches(workedChart(), {{"2", "3"}});
    REQUIRE(matches.size() == 1);
    CHECK(matches[0].predicts == std::vector<CommandedObtained>{{"4", ""}});
}

TEST_CASE("two wrong gears that no single solenoid causes leave none") {
    CHECK(stuckMatches(workedChart(), {{"2", "3"}, {"1", "3"}}).empty());
    CHECK(stuckMatches(workedChart(), {{"2", "3"}, {"4", "4"}}).empty());
    CHECK(named(stuckMatches(workedChart(), {{"2", "3"}, {"4", ""}})) == Names{"s2 off"});
}

TEST_CASE("a loss of all current gives the gear of that pattern everywhere") {
    ApplicationChart chart = workedChart();
    for (const char* name : {"s1", "s2", "s3"})
        chart.currentRemoved[name] = SolenoidCommand::off;
    CHECK_FALSE(lostSupplyMatches(chart, {{"2", "3"}}));
    CHECK(lostSupplyMatches(chart, {{"2", ""}}));
    chart.gears.push_back(gearRow("5", "XY", "000"));
    CHECK(lostSupplyMatches(chart, {{"2", "5"}, {"3", "5"}}));
    CHECK_FALSE(lostSupplyMatches(chart, {{"2", "5"}, {"3", "1"}}));
}

TEST_CASE("a planted stuck solenoid is always among the matches, and every match explains what was "
          "seen") {
    std::mt19937 dice(20260318);
    for (int round = 0; round < 300; ++round) {
        const ApplicationChart chart = drawnChart(dice, 6, 4);
        const std::string stuck = "s" + std::to_string(1 + dice() % 4);
        const bool on = dice() % 2 == 0;
        std::vector<CommandedObtained> observed;
        for (const ApplicationChart::Gear& gear : chart.gears)
            if (dice() % 2 == 0)
                observed.push_back({gear.name, obtainedByHand(chart, gear.name, stuck, on)});
        const auto matches = stuckMatches(chart, observed);
        bool wrong = false, planted = false;
        for (const CommandedObtained& o : observed)
            wrong = wrong || o.commanded != o.obtained;
        for (const StuckMatch& match : matches) {
            planted = planted || (match.solenoid == stuck && match.on == on);
            for (const CommandedObtained& o : observed)
                CHECK(obtainedByHand(chart, o.commanded, match.solenoid, match.on) == o.obtained);
        }
        CHECK(planted == wrong);
    }
}

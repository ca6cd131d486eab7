// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/charts.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using NameSet = std::set<std::string>;

// Worked check of an invented unit, computed by hand from its table; the rules are common practice
// of the trade, no source.
TEST_CASE("slip in 2 and 4, the rest good: X") {
    const ElementSets sets =
        elementSets(workedChart(), slipAndGood({"2", "4"}, {"1", "3", "R"}), benchTests());
    CHECK(sets.must == NameSet{"X"});
    CHECK(sets.cleared == NameSet{"P", "Y", "Q"});
    CHECK(sets.hard == NameSet{"X"});
    CHECK_FALSE(sets.everyGearBad);
}

TEST_CASE("slip in 3 and R, the rest good: Q, which 4 clears only if it was driven alike") {
    const ElementSets sets =
        elementSets(workedChart(), slipAndGood({"3", "R"}, {"1", "2", "4"}), benchTests());
    CHECK(sets.must == NameSet{"Q"});
    CHECK(sets.cleared.contains("Q"));
    CHECK(sets.hard.empty());
    CHECK(sets.soft == NameSet{"Q"});
}

TEST_CASE("the same without 4 driven: Q") {
    const ElementSets sets =
        elementSets(workedChart(), slipAndGood({"3", "R"}, {"1", "2"}), benchTests());
    CHECK(sets.hard == NameSet{"Q"});
}

TEST_CASE("a good gear that was driven lighter or colder clears nothing") {
    const Driven firmHot{Load::firm, Warmth::hot};
    for (const Driven& easier : {Driven{Load::light, Warmth::hot}, Driven{Load::firm, Warmth::cold},
                                 Driven{Load::medium, Warmth::hot}}) {
        EliminationEvidence evidence;
        evidence.gears = {seen("3", GearResult::slips, firmHot),
                          seen("R", GearResult::slips, firmHot),
                          seen("4", GearResult::good, easier)};
        CHECK(elementSets(workedChart(), evidence, benchTests()).hard == NameSet{"Q"});
    }
    EliminationEvidence alike;
    alike.gears = {seen("3", GearResult::slips, firmHot), seen("R", GearResult::slips, firmHot),
                   seen("4", GearResult::good, firmHot)};
    CHECK(elementSets(workedChart(), alike, benchTests()).soft.empty());
}

TEST_CASE("bad gears score for an element, good ones against it by half if driven alike") {
    const Driven firm{Load::firm, Warmth::hot}, light{Load::light, Warmth::hot};
    EliminationEvidence evidence;
    evidence.gears = {seen("3", GearResult::slips, firm), seen("R", GearResult::slips, firm),
                      seen("4", GearResult::good, light), seen("1", GearResult::good, firm)};
    const ElementSets sets = elementSets(workedChart(), evidence, benchTests());
    CHECK(sets.score.at("Q") == 2.0);
    CHECK(sets.score.at("P") == 0.5);
    CHECK(sets.score.at("X") == 0.0);
}

TEST_CASE("every gear bad is reported as such") {
    CHECK(elementSets(workedChart(), slipAndGood({"1", "2", "3", "4", "R"}, {}), benchTests())
              .everyGearBad);
}

TEST_CASE("an element that carries no torque in a gear is neither suspected nor cleared there") {
    ApplicationChart chart = workedChart();
    chart.gears[3].elements["X"] = Applied::idle; // gear 3
    ElementSets sets = elementSets(chart, slipAndGood({"2", "4"}, {"3"}), benchTests());
    CHECK(sets.hard == NameSet{"X"});
    sets = elementSets(chart, slipAndGood({"3"}, {}), benchTests());
    CHECK(sets.must == NameSet{"P", "Q"});
}

TEST_CASE("slip in the automatic range, good by hand: the one-way clutch") {
    const ElementSets sets =
        elementSets(demoChart(), slipAndGood({"1"}, {"1 by hand", "2"}), benchTests());
    CHECK(sets.hard == NameSet{"W"});
}

TEST_CASE("flare at 1-2 and 3-4, 2-3 good: X as it comes on") {
    EliminationEvidence evidence;
    evidence.shifts = {{"1", "2", ShiftResult::flares, {}, "flare at 1-2"},
                       {"3", "4", ShiftResult::flares, {}, "flare at 3-4"},
                       {"2", "3", ShiftResult::good, {}, "good at 2-3"}};
    const ApplicationChart chart = workedChart();
    CHECK(shiftSuspects(chart, evidence) == std::set<ElementRole>{{"X", true}});
    using Roles = std::set<ElementRole>;
    CHECK(rolesAt(chart, *chart.gear("1"), *chart.gear("2")) == Roles{{"X", true}, {"Y", false}});
    CHECK(rolesAt(chart, *chart.gear("2"), *chart.gear("3")) == Roles{{"Q", true}, {"X", false}});
    CHECK(rolesAt(chart, *chart.gear("3"), *chart.gear("4")) == Roles{{"X", true}, {"P", false}});
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/drawn_unit.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

int rounds(int most) {
    return std::getenv("SWARFBOOK_SHORT_TESTS") == nullptr ? most : most / 10;
}

bool anyBad(const EliminationEvidence& evidence) {
    return std::any_of(evidence.gears.begin(), evidence.gears.end(),
                       [](const auto& s) { return s.result != GearResult::good; });
}

std::set<ComponentSet> singles(const ApplicationChart& chart, const EliminationEvidence& evidence,
                               Clearing clearing) {
    const UnitParts parts(chart);
    const auto found =
        minimalDiagnoses(modelOfUnit(parts, dutiesSeen(chart, parts, evidence), evidence, clearing),
                         {.mostFaults = 1});
    return {found.sets.begin(), found.sets.end()};
}

/// All sets of at most two parts, written down without the engine: every bad observation needs a
/// member with a duty that no good one clears.
std::set<ComponentSet> byHand(const ApplicationChart& chart, const EliminationEvidence& evidence) {
    const UnitParts parts(chart);
    const auto seen = dutiesSeen(chart, parts, evidence);
    std::vector<std::set<std::size_t>> needs;
    for (const DutiesSeen& bad : seen) {
        if (!bad.bad)
            continue;
        std::set<std::size_t> able;
        for (const Duty& duty : bad.duties) {
            bool cleared = false;
            for (const DutiesSeen& good : seen)
                cleared = cleared || (!good.bad && good.duties.contains(duty) &&
                                      compare(good.driven, bad.driven) == Asked::asMuch);
            if (!cleared)
                able.insert(duty.part);
        }
        needs.push_back(able);
    }
    const auto explains = [&](const ComponentSet& set) {
        return std::all_of(needs.begin(), needs.end(), [&](const auto& able) {
            return std::any_of(set.begin(), set.end(),
                               [&](std::size_t part) { return able.contains(part); });
        });
    };
    std::set<ComponentSet> all;
    const std::size_t count = parts.all().size();
    for (std::size_t a = 0; a < count; ++a)
        if (explains({a}))
            all.insert(ComponentSet{a});
    for (std::size_t a = 0; a < count; ++a)
        for (std::size_t b = a + 1; b < count; ++b)
            if (!explains({a}) && !explains({b}) && explains({a, b}))
                all.insert(ComponentSet{a, b});
    return all;
}

} // namespace

TEST_CASE("a planted fault is never cleared by its own symptoms") {
    std::mt19937 dice(46);
    int shown = 0;
    for (int round = 0; round < rounds(300); ++round) {
        const DrawnUnit unit(dice, 6, 8);
        const PlantedFault fault = drawnFault(dice, unit.chart);
        EliminationEvidence evidence;
        for (const ApplicationChart::Gear& gear : unit.chart.gears)
            for (unsigned drive = 0; drive < dice() % 3; ++drive)
                evidence.gears.push_back(driveWith(unit.chart, fault, gear.name, drawnDrive(dice)));
        if (!anyBad(evidence))
            continue;
        ++shown;
        const Elimination e = eliminate(unit.chart, evidence, benchTests());
        const EliminatedPart& part = partNamed(e, fault.part.kind, fault.part.name);
        INFO(part.label << ": " << part.sentence);
        CHECK(part.state == PartState::suspect);
        CHECK_FALSE(e.pairs);
    }
    CHECK(shown > rounds(300) / 3);
}

TEST_CASE("if load and warmth are not known, a planted fault may be cleared, but never surely") {
    std::mt19937 dice(47);
    for (int round = 0; round < rounds(300); ++round) {
        const DrawnUnit unit(dice, 6, 8);
        const PlantedFault fault = drawnFault(dice, unit.chart);
        EliminationEvidence evidence;
        for (const ApplicationChart::Gear& gear : unit.chart.gears) {
            evidence.gears.push_back(driveWith(unit.chart, fault, gear.name, drawnDrive(dice)));
            evidence.gears.back().driven = {};
        }
        if (!anyBad(evidence))
            continue;
        const Elimination e = eliminate(unit.chart, evidence, benchTests());
        const EliminatedPart& part = partNamed(e, fault.part.kind, fault.part.name);
        INFO(part.label << ": " << part.sentence);
        CHECK_FALSE((part.state == PartState::cleared && part.surely));
    }
}

TEST_CASE("adding a true observation never adds a suspect among single faults") {
    std::mt19937 dice(48);
    for (int round = 0; round < rounds(150); ++round) {
        const DrawnUnit unit(dice, 6, 8);
        const PlantedFault fault = drawnFault(dice, unit.chart);
        EliminationEvidence evidence;
        std::map<Clearing, std::set<ComponentSet>> before;
        bool badBefore = false;
        for (int drive = 0; drive < 10; ++drive) {
            const auto& gear = unit.chart.gears[dice() % unit.chart.gears.size()];
            evidence.gears.push_back(driveWith(unit.chart, fault, gear.name, drawnDrive(dice)));
            for (const Clearing clearing : {Clearing::unlessLess, Clearing::onlySure}) {
                const auto now = singles(unit.chart, evidence, clearing);
                if (badBefore)
                    CHECK(std::includes(before[clearing].begin(), before[clearing].end(),
                                        now.begin(), now.end()));
                before[clearing] = now;
            }
            badBefore = anyBad(evidence);
        }
    }
}

TEST_CASE("a true observation never adds a suspect if load and warmth are known") {
    std::mt19937 dice(49);
    for (int round = 0; round < rounds(100); ++round) {
        const DrawnUnit unit(dice, 5, 7);
        const PlantedFault fault = drawnFault(dice, unit.chart);
        EliminationEvidence evidence;
        std::vector<std::string> before;
        for (int drive = 0; drive < 8; ++drive) {
            const auto& gear = unit.chart.gears[dice() % unit.chart.gears.size()];
            const bool badBefore = anyBad(evidence);
            evidence.gears.push_back(driveWith(unit.chart, fault, gear.name, drawnDrive(dice)));
            auto now = namesIn(eliminate(unit.chart, evidence, benchTests()), PartState::suspect);
            std::sort(now.begin(), now.end());
            if (badBefore)
                CHECK(std::includes(before.begin(), before.end(), now.begin(), now.end()));
            before = now;
        }
    }
}

TEST_CASE("single faults among elements agree with the set operation") {
    std::mt19937 dice(50);
    for (int round = 0; round < rounds(300); ++round) {
        const DrawnUnit unit(dice, 6, 8);
        EliminationEvidence evidence;
        for (const ApplicationChart::Gear& gear : unit.chart.gears)
            if (dice() % 3 != 0)
                evidence.gears.push_back(
                    seen(gear.name, dice() % 3 == 0 ? GearResult::slips : GearResult::good,
                         dice() % 2 == 0 ? drawnDrive(dice) : Driven{}));
        if (!anyBad(evidence))
            continue;
        const UnitParts parts(unit.chart);
        const ElementSets sets = elementSets(unit.chart, evidence, benchTests());
        for (const auto& [clearing, expected] :
             {std::pair{Clearing::unlessLess, sets.hard}, {Clearing::onlySure, sets.soft}}) {
            std::set<std::string> elements;
            for (const ComponentSet& set : singles(unit.chart, evidence, clearing))
                if (set.size() == 1 && parts.all()[set[0]].kind == PartKind::element)
                    elements.insert(parts.all()[set[0]].name);
            CHECK(elements == expected);
        }
    }
}

TEST_CASE("singles and pairs agree with a search over all of them") {
    std::mt19937 dice(51);
    std::size_t pairs = 0;
    for (int round = 0; round < rounds(60); ++round) {
        const DrawnUnit unit(dice, 4, 6);
        EliminationEvidence evidence;
        for (const ApplicationChart::Gear& gear : unit.chart.gears)
            if (dice() % 3 != 0)
                evidence.gears.push_back(
                    seen(gear.name, dice() % 2 == 0 ? GearResult::slips : GearResult::good,
                         drawnDrive(dice)));
        if (!anyBad(evidence))
            continue;
        const UnitParts parts(unit.chart);
        const auto found =
            minimalDiagnoses(modelOfUnit(parts, dutiesSeen(unit.chart, parts, evidence), evidence,
                                         Clearing::onlySure),
                             {.mostFaults = 2});
        const std::set<ComponentSet> sets(found.sets.begin(), found.sets.end());
        CHECK(sets == byHand(unit.chart, evidence));
        pairs += static_cast<std::size_t>(
            std::count_if(sets.begin(), sets.end(), [](const auto& s) { return s.size() == 2; }));
    }
    CHECK(pairs > 10);
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/charts.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Contains;

namespace {

std::vector<std::string> suspectElements(const Elimination& e) {
    std::vector<std::string> names;
    for (const EliminatedPart* part : e.inState(PartState::suspect))
        if (part->part.kind == PartKind::element)
            names.push_back(part->part.name);
    return names;
}

EliminationEvidence demoEvidence() {
    const Driven firmHot{Load::firm, Warmth::hot};
    EliminationEvidence evidence;
    evidence.gears = {seen("3", GearResult::slips, firmHot), seen("4", GearResult::good, firmHot),
                      seen("2", GearResult::good, firmHot)};
    return evidence;
}

} // namespace

// Worked check of an invented unit, computed by hand from its table; the rules are common practice
// of the trade, no source.
TEST_CASE("the worked check by slip and shift, whole") {
    const ApplicationChart chart = workedChart();
    SECTION("slip in 2 and 4") {
        const Elimination e =
            eliminate(chart, slipAndGood({"2", "4"}, {"1", "3", "R"}), benchTests());
        CHECK(e.explanations == std::vector<Names>{{"clutch X"}});
        CHECK(namesIn(e, PartState::suspect) == Names{"clutch X"});
        for (const char* name : {"P", "Q", "Y"})
            CHECK(partNamed(e, PartKind::element, name).state == PartState::cleared);
        CHECK_FALSE(e.soft);
    }
    SECTION("slip in 3 and R, 4 good: cleared only if driven alike") {
        const Elimination e =
            eliminate(chart, slipAndGood({"3", "R"}, {"1", "2", "4"}), benchTests());
        CHECK(e.elements.hard.empty());
        CHECK(suspectElements(e) == Names{"Q"});
        CHECK(e.soft);
        CHECK_THAT(partNamed(e, PartKind::element, "Q").sentence,
                   Contains("good in 4") && Contains("nobody has said"));
        CHECK_FALSE(e.pairs);
    }
    SECTION("slip in 3 and R, 4 not driven") {
        const Elimination e = eliminate(chart, slipAndGood({"3", "R"}, {"1", "2"}), benchTests());
        CHECK(e.explanations == std::vector<Names>{{"clutch Q"}});
    }
    SECTION("flare at 1-2 and 3-4, 2-3 good") {
        EliminationEvidence evidence;
        evidence.shifts = {{"1", "2", ShiftResult::flares, {}, "flare at 1-2"},
                           {"3", "4", ShiftResult::flares, {}, "flare at 3-4"},
                           {"2", "3", ShiftResult::good, {}, "good at 2-3"}};
        const Elimination e = eliminate(chart, evidence, benchTests());
        CHECK(e.shiftRoles == std::vector<ElementRole>{{"X", true}});
        CHECK(e.explanations == std::vector<Names>{{"clutch X"}});
    }
}

// Every way in which the gears of the worked check can be driven, read off its table.
TEST_CASE(
    "the sentence that every element of the bad gears holds in a good one appears only if true") {
    const ApplicationChart chart = workedChart();
    int said = 0;
    for (std::size_t way = 0; way < 243; ++way) {
        Names bad, good;
        for (std::size_t gear = 0, rest = way; gear < 5; ++gear, rest /= 3)
            if (rest % 3 != 0)
                (rest % 3 == 1 ? bad : good).push_back(chart.gears[gear].name);
        const auto holds = [&](const std::string& element) {
            return [&chart, element](const std::string& gear) {
                return chart.gear(gear)->elements.contains(element);
            };
        };
        const Elimination e = eliminate(chart, slipAndGood(bad, good), benchTests());
        if (std::none_of(e.notes.begin(), e.notes.end(), [](const std::string& note) {
                return note.starts_with("Every element of the bad gears");
            }))
            continue;
        ++said;
        for (const ApplicationChart::Element& one : chart.elements)
            if (std::all_of(bad.begin(), bad.end(), holds(one.name)))
                CHECK(std::any_of(good.begin(), good.end(), holds(one.name)));
    }
    CHECK(said > 0);
}

// The same worked check.
TEST_CASE("the worked check by the gear obtained, whole") {
    EliminationEvidence evidence;
    evidence.obtained = {{"2", "3", {}, "2 commanded, 3 obtained"}};
    const Elimination e = eliminate(workedChart(), evidence, benchTests());
    REQUIRE(e.stuck.size() == 1);
    CHECK(e.stuck[0].solenoid == "s2");
    CHECK_FALSE(e.stuck[0].on);
    CHECK(e.notes.front() ==
          "Solenoid s2 stuck off would give exactly the gears obtained. It would also give no "
          "drive at 4: drive it to see.");
    const auto& s2 = partNamed(e, PartKind::solenoid, "s2");
    CHECK(s2.state == PartState::suspect);
    CHECK_THAT(s2.sentence, Contains("does not condemn it"));
    CHECK(partNamed(e, PartKind::solenoid, "s1").state != PartState::suspect);
}

TEST_CASE("the parts that feed the element stay suspect beside it until tested") {
    EliminationEvidence evidence = demoEvidence();
    Elimination e = eliminate(demoChart(), evidence, benchTests());
    CHECK(suspectElements(e) == Names{"Q"});
    CHECK(partNamed(e, PartKind::element, "P").state == PartState::cleared);
    CHECK(partNamed(e, PartKind::element, "P").surely);
    const std::size_t before = e.explanations.size();
    evidence.tested.push_back(
        {{PartKind::bore, "2-3 shift valve"}, true, "Bore 2-3 shift valve holds 21 inHg."});
    e = eliminate(demoChart(), evidence, benchTests());
    CHECK(e.explanations.size() <= before);
    CHECK(partNamed(e, PartKind::bore, "2-3 shift valve").state == PartState::cleared);
    evidence.tested.push_back({{PartKind::element, "Q"}, false, "Q leaks on the air check."});
    e = eliminate(demoChart(), evidence, benchTests());
    CHECK(e.explanations == std::vector<Names>{{"clutch Q"}});
    CHECK(partNamed(e, PartKind::element, "Q").sentence == "Q leaks on the air check.");
}

TEST_CASE("a valve that stands right in a good gear does not clear its bore of a leak in another") {
    // In gear 4 the valve of 2-3 stands as in gear 3, but feeds nothing there.
    const Elimination e = eliminate(demoChart(), demoEvidence(), benchTests());
    CHECK(partNamed(e, PartKind::bore, "2-3 shift valve").state == PartState::suspect);
    CHECK(partNamed(e, PartKind::solenoid, "C").state == PartState::cleared);
}

TEST_CASE("several symptoms in one gear and one good gear clear the parts that all share") {
    const Elimination e = eliminate(demoChart(), demoEvidence(), benchTests());
    CHECK(partNamed(e, PartKind::common, linePressurePart).state == PartState::cleared);
    const Elimination all =
        eliminate(demoChart(), slipAndGood({"R", "1", "2", "3", "4", "5"}, {}), benchTests());
    CHECK(partNamed(all, PartKind::common, linePressurePart).state == PartState::suspect);
    CHECK(partNamed(all, PartKind::common, fluidLevelPart).state == PartState::suspect);
    CHECK(suspectElements(all).empty());
    CHECK_THAT(all.notes.front(), Contains("what all gears share"));
}

TEST_CASE("two faults are named as pairs when no single part explains all") {
    const Driven alike{Load::firm, Warmth::hot};
    EliminationEvidence evidence;
    for (const char* gear : {"1", "4"})
        evidence.gears.push_back(seen(gear, GearResult::slips, alike));
    for (const char* gear : {"2", "3"})
        evidence.gears.push_back(seen(gear, GearResult::good, alike));
    const Elimination e = eliminate(workedChart(), evidence, benchTests());
    CHECK(e.pairs == false); // 1 = PY and 4 = QX share nothing, P, X and Q are cleared
    CHECK(e.explanations.empty());
    CHECK_THAT(e.summary, Contains("do not fit together"));
    evidence.gears.pop_back(); // 3 not driven: Q is open
    const Elimination two = eliminate(workedChart(), evidence, benchTests());
    CHECK(two.pairs);
    CHECK(two.explanations == std::vector<Names>{{"clutch Q", "clutch Y"}});
    CHECK_THAT(partNamed(two, PartKind::element, "Q").sentence, Contains("two together"));
}

TEST_CASE("a solenoid named after the converter clutch serves it and not the line pressure") {
    ApplicationChart chart = demoChart();
    ApplicationChart::Solenoid& converter =
        *std::find_if(chart.solenoids.begin(), chart.solenoids.end(),
                      [](const auto& s) { return s.name == "converter"; });
    for (const char* name : {"TCC", "lock-up", "tcc regulator"}) {
        INFO(name);
        converter.name = name;
        converter.type = SolenoidKind::pulsed;
        for (ApplicationChart::Bore& bore : chart.bores)
            if (bore.solenoid == "converter")
                bore.solenoid = name;
        const auto suspects =
            namesIn(eliminate(chart, slipAndGood({"3"}, {"1"}), benchTests()), PartState::suspect);
        CHECK(std::find(suspects.begin(), suspects.end(), std::string("solenoid ") + name) ==
              suspects.end());
        EliminationEvidence shudder;
        shudder.converterBad = {"shudder"};
        const auto chain = namesIn(eliminate(chart, shudder, benchTests()), PartState::suspect);
        CHECK(std::find(chain.begin(), chain.end(), std::string("solenoid ") + name) !=
              chain.end());
    }
}

TEST_CASE("a converter that slips points to its own chain alone") {
    EliminationEvidence evidence;
    evidence.converterBad = {"shudder"};
    const Elimination e = eliminate(demoChart(), evidence, benchTests());
    CHECK(namesIn(e, PartState::suspect) == Names{"solenoid converter",
                                                  "circuit of solenoid converter",
                                                  "bore converter regulator", "converter clutch"});
}

TEST_CASE("without a complaint nothing is suspected, and the sentence says so") {
    const Elimination e = eliminate(demoChart(), slipAndGood({}, {"1", "2"}), benchTests());
    CHECK(e.inState(PartState::suspect).empty());
    CHECK_FALSE(e.anythingBad);
    CHECK(e.tests.empty());
    CHECK_THAT(e.summary, Contains("No gear, shift or code was entered as bad"));
}

TEST_CASE("every part has one state and one sentence") {
    const Elimination e = eliminate(demoChart(), demoEvidence(), benchTests());
    CHECK(e.parts.size() == 6 + 2 * 5 + 5 + 4);
    for (const EliminatedPart& part : e.parts) {
        INFO(part.label);
        CHECK_FALSE(part.sentence.empty());
        CHECK(part.sentence.back() == '.');
        CHECK(part.cells.size() == e.gears.size());
    }
    const auto json = toJson(e);
    CHECK(json.at("format") == "swarfbook elimination 1");
    CHECK(json.at("parts").size() == e.parts.size());
    CHECK(json.at("gears").at("3") == "slips");
}

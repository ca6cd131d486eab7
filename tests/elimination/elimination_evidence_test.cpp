// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/charts.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Contains;

namespace {

constexpr WarmthLimits coldAndHot{Celsius(50), Celsius(70)};

/// Limits do not matter here: verdicts are handed in ready.
EliminationEvidence read(const std::vector<Observation>& observations,
                         const SolenoidTable& solenoids = {}, const BoreTable& bores = {},
                         const ApplicationChart& chart = demoChart()) {
    return eliminationEvidence(chart, visitFindings(observations, coldAndHot),
                               {solenoids, bores, benchTests()});
}

Complaint inGear(const std::string& gear, Symptom symptom, const Driven& driven = {}) {
    Complaint c;
    c.gear = gear;
    c.symptom = symptom;
    c.load = driven.load;
    c.warmth = driven.warmth;
    return c;
}

Complaint atShift(const std::string& shift, Symptom symptom) {
    Complaint c;
    c.shift = shift;
    c.symptom = symptom;
    return c;
}

Codes codes(const std::vector<std::string>& list) {
    Codes read;
    read.codes = list;
    return read;
}

SolenoidVerdict verdict(const std::string& name, SolenoidState state) {
    SolenoidVerdict v;
    v.name = name;
    v.state = state;
    v.sentence = name + " tested.";
    return v;
}

bool says(const EliminationEvidence& evidence, const std::string& text) {
    return std::any_of(evidence.notes.begin(), evidence.notes.end(),
                       [&](const auto& note) { return note.find(text) != std::string::npos; });
}

using Parts = std::set<PartName>;
Parts partsOf(const OneOfThese& one) {
    return {one.parts.begin(), one.parts.end()};
}

} // namespace

TEST_CASE("two drives compare in load and warmth") {
    const Driven firmHot{Load::firm, Warmth::hot}, lightHot{Load::light, Warmth::hot},
        firmCold{Load::firm, Warmth::cold}, untold{}, firm{Load::firm, Warmth::notSaid},
        both{Load::firm, Warmth::both};
    CHECK(compare(firmHot, firmHot) == Asked::asMuch);
    CHECK(compare(firmHot, lightHot) == Asked::asMuch);
    CHECK(compare(lightHot, firmHot) == Asked::less);
    CHECK(compare(firmCold, firmHot) == Asked::less);
    CHECK(compare(firmHot, firmCold) == Asked::less);
    CHECK(compare(both, firmCold) == Asked::asMuch);
    CHECK(compare(untold, firmHot) == Asked::notSaid);
    CHECK(compare(firm, firmHot) == Asked::notSaid);
    CHECK(compare({Load::light, Warmth::notSaid}, firmHot) == Asked::less);
}

TEST_CASE("gears and shifts are taken by the names of the chart, all and forward spelled out") {
    CHECK(read({inGear("all", Symptom::slip)}).gears.size() == 6);
    CHECK(read({inGear("forward", Symptom::noDrive)}).gears.size() == 5);
    const auto evidence = read({inGear("3", Symptom::slip), atShift("2-3", Symptom::flare),
                                inGear("9", Symptom::slip), atShift("7-8", Symptom::flare)});
    REQUIRE(evidence.gears.size() == 1);
    CHECK(evidence.gears[0].gear == "3");
    REQUIRE(evidence.shifts.size() == 1);
    CHECK(evidence.shifts[0].result == ShiftResult::flares);
    CHECK(says(evidence, "Gear 9 is not in the chart"));
    CHECK(says(evidence, "The shift 7-8"));
}

TEST_CASE("the latest entry on a gear counts, beside entries with other conditions") {
    const Driven firm{Load::firm, Warmth::hot}, light{Load::light, Warmth::hot};
    CHECK(
        read({inGear("3", Symptom::slip, firm), inGear("3", Symptom::good, light)}).gears.size() ==
        2);
    const auto again = read({inGear("3", Symptom::slip, firm), inGear("3", Symptom::good, firm)});
    REQUIRE(again.gears.size() == 1);
    CHECK(again.gears[0].result == GearResult::good);
    const auto plain = read({inGear("3", Symptom::slip, firm), inGear("3", Symptom::good)});
    CHECK(plain.gears.size() == 2); // the conditions of the good drive are not known
}

TEST_CASE("a temperature decides between cold and hot if the word was not typed") {
    Complaint c = inGear("3", Symptom::slip);
    c.temperature = Typed<Celsius>{Celsius(92), "92C"};
    CHECK(read({c}).gears[0].driven.warmth == Warmth::hot);
    c.temperature = Typed<Celsius>{Celsius(20), "20C"};
    CHECK(read({c}).gears[0].driven.warmth == Warmth::cold);
    c.temperature = Typed<Celsius>{Celsius(60), "60C"};
    CHECK(read({c}).gears[0].driven.warmth == Warmth::notSaid);
}

TEST_CASE("good by hand names the manual range's row") {
    Complaint c = inGear("1", Symptom::slip);
    c.manualRangeGood = true;
    const auto evidence = read({c});
    REQUIRE(evidence.gears.size() == 2);
    CHECK(evidence.gears[1].gear == "1 by hand");
    CHECK(evidence.gears[1].result == GearResult::good);
    c.gear = "2";
    CHECK(says(read({c}), "no row for gear 2 picked by hand"));
}

TEST_CASE("entries that name no gear, or point to command rather than clutches, are reported as "
          "not counted") {
    CHECK(says(read({inGear("", Symptom::slip)}), "names no gear"));
    CHECK(says(read({atShift("2-3", Symptom::late)}), "eliminates nothing"));
    CHECK(says(read({inGear("", Symptom::failSafe)}), "fail-safe"));
    CHECK(says(read({inGear("3", Symptom::wrongGear)}), "--obtained"));
}

// Code families of SAE J2012 in our own words; the parts they mean are common practice, no source.
TEST_CASE("a code means what its family says") {
    const auto ratio = read({codes({"P0733"})});
    REQUIRE(ratio.gears.size() == 1);
    CHECK(ratio.gears[0].result == GearResult::wrongRatio);
    const auto circuit = read({codes({"P0758"})});
    REQUIRE(circuit.oneOf.size() == 1);
    CHECK(partsOf(circuit.oneOf[0]) == Parts{{PartKind::circuit, "B"}, {PartKind::solenoid, "B"}});
    const auto performance = read({codes({"P0756"})});
    REQUIRE(performance.oneOf.size() == 1);
    CHECK(partsOf(performance.oneOf[0]) ==
          Parts{{PartKind::solenoid, "B"}, {PartKind::bore, "1-2 shift valve"}});
    CHECK(read({codes({"P0741"})}).converterBad.size() == 1);
    CHECK(read({codes({"P0741"})}).gears.empty());
    CHECK(
        partsOf(read({codes({"P0868"})}).oneOf[0]).contains({PartKind::common, linePressurePart}));
    CHECK(says(read({codes({"P0720"})}), "sensor"));
    CHECK(read({codes({"P0700"})}).notes.empty());
}

TEST_CASE("a ratio code belongs to the slip entered for its gear") {
    const Driven firmHot{Load::firm, Warmth::hot};
    const auto evidence = read({inGear("3", Symptom::slip, firmHot), codes({"P0733"})});
    REQUIRE(evidence.gears.size() == 2);
    CHECK(evidence.gears[1].driven.load == Load::firm);
    CHECK(evidence.gears[1].driven.warmth == Warmth::hot);
}

TEST_CASE("a coil that measures right leaves its circuit, and several circuits their supply") {
    SolenoidTable right;
    right.each = {verdict("B", SolenoidState::coilGood)};
    CHECK(partsOf(read({codes({"P0758"})}, right).oneOf[0]) == Parts{{PartKind::circuit, "B"}});
    const auto three = read({codes({"P0753", "P0758", "P0763"})});
    REQUIRE(three.oneOf.size() == 3);
    for (const OneOfThese& one : three.oneOf)
        CHECK(partsOf(one).contains({PartKind::common, supplyPart}));
    const Elimination e = eliminate(demoChart(), three, benchTests());
    CHECK(e.explanations == std::vector<std::vector<std::string>>{{supplyPart}});
}

TEST_CASE("the chart decides what a code's letter means, else the solenoid's name") {
    ApplicationChart chart = demoChart();
    chart.solenoids[0].code = "shift B";
    chart.solenoids[1].code = "shift A";
    const auto evidence = read({codes({"P0756"})}, {}, {}, chart);
    CHECK(partsOf(evidence.oneOf[0]).contains({PartKind::solenoid, "A"}));
    CHECK(says(read({codes({"P0773"})}), "does not say which one"));
}

TEST_CASE("an exchange decides between a solenoid and what lies behind it") {
    SolenoidTable table;
    table.each = {verdict("B", SolenoidState::good)};
    table.each[0].swap = SwapResult::stays;
    auto evidence = read({codes({"P0756"})}, table);
    CHECK(eliminate(demoChart(), evidence, benchTests()).explanations ==
          std::vector<std::vector<std::string>>{{"bore 1-2 shift valve"}});
    table.each[0].swap = SwapResult::moves;
    table.each[0].state = SolenoidState::proven;
    evidence = read({codes({"P0756"})}, table);
    CHECK(eliminate(demoChart(), evidence, benchTests()).explanations ==
          std::vector<std::vector<std::string>>{{"solenoid B"}});
}

TEST_CASE("a solenoid that tests good cold is not cleared of a fault that comes only when hot") {
    SolenoidTable table;
    table.each = {verdict("B", SolenoidState::good)};
    const Complaint hot = inGear("3", Symptom::slip, {Load::firm, Warmth::hot});
    auto evidence = read({hot}, table);
    CHECK(evidence.tested.empty());
    CHECK(says(evidence, "repeat its tests hot"));
    table.each[0].hotTested = true;
    CHECK(read({hot}, table).tested.size() == 1);
    CHECK(read({inGear("3", Symptom::slip)}, table).tested.size() == 1);
}

TEST_CASE("air checks, pressures and the level are taken by part") {
    AirCheck air{"clutch Q", {"3"}, AirCheckResult::leaks};
    auto evidence = read({air});
    REQUIRE(evidence.tested.size() == 1);
    CHECK(evidence.tested[0].part == PartName{PartKind::element, "Q"});
    CHECK(evidence.valveBodyOff);
    air.result = AirCheckResult::holds;
    CHECK(read({air}).airHolds == std::vector<std::string>{"Q"});
    air.element = "third clutch";
    CHECK(says(read({air}), "names no element"));
    LevelSeen level;
    level.found = LevelFound::low;
    CHECK_FALSE(read({level}).tested[0].inOrder);
    PressureSeen low;
    low.found = PressureFound::low;
    CHECK(read({low}).oneOf.size() == 1);
    PressureSeen right;
    right.gear = "3";
    CHECK(read({right}).pressureGoodIn == std::vector<std::string>{"3"});
}

TEST_CASE("slip with the right pressure leaves the elements of that gear") {
    PressureSeen right;
    right.gear = "3";
    const auto evidence = read({inGear("3", Symptom::slip), right});
    const Elimination e = eliminate(demoChart(), evidence, benchTests());
    CHECK(e.explanations == std::vector<std::vector<std::string>>{{"clutch P"}, {"clutch Q"}});
}

TEST_CASE("parts that are not in the chart are reported as left out") {
    SolenoidTable solenoids;
    solenoids.each = {verdict("Z", SolenoidState::good)};
    BoreTable bores;
    bores.each.push_back({});
    bores.each[0].name = "none such";
    const auto evidence = read({}, solenoids, bores);
    CHECK(says(evidence, "Solenoid \"Z\""));
    CHECK(says(evidence, "Bore \"none such\""));
    CHECK(evidence.tested.empty());
}

TEST_CASE("one entry for all bores counts for each bore without its own") {
    BoreVerdict all, own;
    all.name = "all";
    all.state = BoreState::good;
    own.name = "2-3 shift valve";
    own.state = BoreState::low;
    BoreTable bores;
    bores.each = {own, all};
    const EliminationEvidence evidence = read({inGear("3", Symptom::slip)}, {}, bores);
    std::size_t inOrder = 0;
    for (const PartTested& test : evidence.tested)
        if (test.part.kind == PartKind::bore) {
            CHECK(test.inOrder == (test.part.name != "2-3 shift valve"));
            inOrder += test.inOrder ? 1 : 0;
        }
    CHECK(inOrder + 1 == demoChart().bores.size());
    CHECK_FALSE(says(evidence, "all"));
}

TEST_CASE("a circuit that carries its current is not measured again") {
    SolenoidVerdict moves = verdict("A", SolenoidState::coilGood);
    moves.circuitGood = true;
    SolenoidTable solenoids;
    solenoids.each = {moves};
    const EliminationEvidence evidence = read({inGear("3", Symptom::slip)}, solenoids);
    CHECK(std::any_of(evidence.tested.begin(), evidence.tested.end(), [](const PartTested& test) {
        return test.part == PartName{PartKind::circuit, "A"} && test.inOrder;
    }));
}

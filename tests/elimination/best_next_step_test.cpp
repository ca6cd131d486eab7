// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/charts.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Contains;

namespace {

const TestChoice& choice(const Elimination& e, const std::string& says) {
    for (const TestChoice& test : e.tests)
        if (test.what.find(says) != std::string::npos)
            return test;
    throw std::runtime_error("no test " + says);
}

bool isOffered(const Elimination& e, const std::string& says) {
    return std::any_of(e.tests.begin(), e.tests.end(), [&](const TestChoice& test) {
        return test.what.find(says) != std::string::npos;
    });
}

/// Slip in 3 (P and Q) alone: P, Q and what all share (level, pressure) are the four candidates.
Elimination onlyThirdSlips() {
    return eliminate(workedChart(), slipAndGood({"3"}, {}), benchTests());
}

} // namespace

// Counted by hand: of the four candidates P, Q, level and line pressure, gear 2 (P, X) would be bad
// for P, level and pressure, good for Q.
TEST_CASE("the candidates that a drive would leave agree with counting") {
    const Elimination e = onlyThirdSlips();
    REQUIRE(e.explanations.size() == 4);
    const TestChoice& second = choice(e, "Drive gear 2");
    CHECK(second.leftIfBad.size() == 3);
    CHECK(second.leftIfGood == std::vector<std::string>{"clutch Q"});
    CHECK(second.expectedLeft == Approx(0.75 * 3 + 0.25 * 1).margin(1e-12));
    CHECK(second.minutes == benchTests().minutes("drive_a_gear"));
}

TEST_CASE("a test of a part itself leaves it alone or all others") {
    const Elimination e = onlyThirdSlips();
    const TestChoice& level = choice(e, "fluid level");
    CHECK(level.leftIfBad == std::vector<std::string>{"fluid level"});
    CHECK(level.leftIfGood.size() == 3);
    CHECK(level.expectedLeft == Approx(0.25 * 1 + 0.75 * 3).margin(1e-12));
}

TEST_CASE("an air check that holds leaves the lining, so it removes less") {
    const Elimination e = onlyThirdSlips();
    const TestChoice& air = choice(e, "Air-check the clutch Q");
    CHECK(air.leftIfGood.size() == 4);
    CHECK(air.expectedLeft == Approx(0.125 * 1 + 0.875 * 4).margin(1e-12));
}

TEST_CASE("the tests stand in the order of candidates removed per minute") {
    const Elimination e = onlyThirdSlips();
    REQUIRE(e.tests.size() > 3);
    for (std::size_t i = 1; i < e.tests.size(); ++i)
        CHECK((4.0 - e.tests[i - 1].expectedLeft) / e.tests[i - 1].minutes >=
              (4.0 - e.tests[i].expectedLeft) / e.tests[i].minutes);
    CHECK_THAT(e.tests.front().what, Contains("Drive gear"));
    CHECK_THAT(testInWords(e.tests.front()), Contains("about 10 minutes"));
}

TEST_CASE("gears known to be bad and tests already made are not asked for again") {
    EliminationEvidence evidence = slipAndGood({"3"}, {});
    evidence.tested.push_back({{PartKind::common, fluidLevelPart}, true, "Level right."});
    evidence.airHolds = {"Q"};
    const Elimination e = eliminate(workedChart(), evidence, benchTests());
    CHECK_FALSE(isOffered(e, "Drive gear 3"));
    CHECK_FALSE(isOffered(e, "fluid level"));
    CHECK_FALSE(isOffered(e, "Air-check the clutch Q"));
    CHECK(isOffered(e, "Air-check the clutch P"));
}

TEST_CASE(
    "a drive costs the refitting once the pan is off, and inside tests no longer cost access") {
    EliminationEvidence evidence = slipAndGood({"3"}, {});
    const Elimination closed = eliminate(workedChart(), evidence, benchTests());
    evidence.panOff = evidence.valveBodyOff = true;
    const Elimination open = eliminate(workedChart(), evidence, benchTests());
    const auto minutes = [](const char* name) { return benchTests().minutes(name); };
    CHECK(choice(open, "Drive gear 2").minutes ==
          minutes("drive_a_gear") + minutes("refit_for_a_drive"));
    CHECK(choice(open, "Air-check").minutes == minutes("air_check"));
    CHECK(choice(closed, "Air-check").minutes ==
          minutes("air_check") + minutes("take_pan_off") + minutes("take_valve_body_off"));
}

TEST_CASE("an exchange is offered between identical solenoids, never for calibrated ones") {
    ApplicationChart chart = demoChart();
    EliminationEvidence evidence = slipAndGood({"2"}, {});
    CHECK(isOffered(eliminate(chart, evidence, benchTests()),
                    "Exchange solenoid A with the identical"));
    CHECK_FALSE(isOffered(eliminate(chart, evidence, benchTests()), "Exchange solenoid line"));
    for (auto& solenoid : chart.solenoids)
        solenoid.calibrated = true;
    CHECK_FALSE(isOffered(eliminate(chart, evidence, benchTests()), "Exchange solenoid"));
}

TEST_CASE("with one candidate left, the test that would prove it is named") {
    EliminationEvidence evidence = slipAndGood({"2", "4"}, {"1", "3", "R"});
    const Elimination e = eliminate(workedChart(), evidence, benchTests());
    REQUIRE(e.explanations.size() == 1);
    REQUIRE_FALSE(e.tests.empty());
    CHECK_THAT(e.tests.front().what, Contains("Air-check the clutch X"));
}

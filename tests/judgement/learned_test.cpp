// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/learned.h"
#include "scenario.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

std::vector<LearnedCase> cases(long held, long all,
                               Recommendation outcome = Recommendation::cleanAndRefit,
                               const std::string& pattern = "no code, drives well, fines") {
    std::vector<LearnedCase> list;
    for (long i = 0; i < all; ++i)
        list.push_back({outcome, pattern, i < held ? Held::fixed : Held::cameBack, true});
    return list;
}

} // namespace

// Newcombe, Statistics in Medicine 17 (1998) 857, table I, Wilson's score method without
// continuity correction: 81 of 263: 0.2553 to 0.3662; 15 of 148: 0.0624 to 0.1605; 0 of 20: 0 to
// 0.1611; 1 of 29: 0.0061 to 0.1718.
TEST_CASE("the share that held carries Wilson's interval") {
    const auto interval = [](long held, long all) { return *learn(cases(held, all))[0].share95; };
    CHECK(interval(81, 263).low == Approx(0.2553).margin(0.00005));
    CHECK(interval(81, 263).high == Approx(0.3662).margin(0.00005));
    CHECK(interval(15, 148).low == Approx(0.0624).margin(0.00005));
    CHECK(interval(15, 148).high == Approx(0.1605).margin(0.00005));
    CHECK(interval(0, 20).high == Approx(0.1611).margin(0.00005));
    CHECK(interval(1, 29).low == Approx(0.0061).margin(0.00005));
}

TEST_CASE("fewer than five cases say how many are missing") {
    CHECK_FALSE(learn(cases(4, 4))[0].share95);
    CHECK_THAT(learnedSentence(learn(cases(4, 4))[0]), Catch::Contains("4 of the 5 finished jobs"));
    CHECK(learn(cases(5, 5))[0].share95);
    const auto beside = learnedBeside({}, Recommendation::repairBores, "no code, slips, fines");
    REQUIRE(beside.size() == 1);
    CHECK_THAT(beside[0],
               Catch::Contains("No success rate") && Catch::Contains("needs 5 finished jobs"));
    CHECK(learnedBeside({}, Recommendation::notEnoughEvidence, "").empty());
}

TEST_CASE("cases with different evidence are not counted together, except over one outcome") {
    auto all = cases(5, 6, Recommendation::replaceSolenoids, "electrical code, slips, fines");
    const auto more =
        cases(1, 5, Recommendation::replaceSolenoids, "performance code, slips, fines");
    all.insert(all.end(), more.begin(), more.end());
    const auto rows = learn(all);
    REQUIRE(rows.size() == 3);
    CHECK(rows[0].held == 5);
    CHECK(rows[1].held == 1);
    CHECK(rows[2].pattern.empty());
    CHECK(rows[2].cases == 11);
}

TEST_CASE("cases with other work done, or without a known outcome, do not count") {
    auto all = cases(5, 5);
    all[0].asSuggested = false;
    all[1].held = Held::notKnown;
    const LearnedRow row = learn(all)[0];
    CHECK(row.cases == 3);
    CHECK(row.otherwise == 1);
    CHECK(row.notKnown == 1);
    CHECK_FALSE(row.share95);
}

TEST_CASE("a case is learned from the visit's own evidence, and changes no suggestion") {
    Evidence evidence = scenario("04").evidence;
    CHECK_FALSE(learnedCase(evidence, suggestionModel()));
    const Suggestion before = suggest(evidence, suggestionModel());
    evidence.now.observations.emplace_back(RepairResult{Held::cameBack, {}, "", ""});
    const auto one = learnedCase(evidence, suggestionModel());
    REQUIRE(one);
    CHECK(one->outcome == Recommendation::replaceSolenoids);
    CHECK(one->pattern.starts_with("electrical code, "));
    CHECK(one->held == Held::cameBack);
    CHECK(one->outcome == before.outcome); // the repair does not change the evidence for it
    evidence.now.observations.emplace_back(Overruled{"open the transmission", "warranty"});
    CHECK_FALSE(learnedCase(evidence, suggestionModel())->asSuggested);
}

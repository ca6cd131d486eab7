// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/bores.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

namespace {
Kilopascals inHg(double value) {
    return Kilopascals(value * 3.386389);
}
/// Common practice, no source: 20 / 18 / 15 / 10 inHg on a stand that dead-heads at 25 or more.
BoreLimits limits() {
    BoreLimits l;
    l.good = inHg(20);
    l.pass = inHg(18);
    l.marginal = inHg(15);
    l.heavyLeak = inHg(10);
    l.standBlocked = inHg(25);
    l.standUsable = inHg(20);
    l.standOpen = inHg(5);
    l.nominalBlocked = inHg(26);
    l.jetDrift = inHg(1);
    l.alikeSpread = inHg(2);
    return l;
}
BoreReadings bore(const std::string& name, const std::string& vacuum) {
    BoreReadings b;
    b.name = name;
    b.vacuum = parseVacuum(vacuum);
    return b;
}
BoreState stateOf(const BoreReadings& b) {
    return judgeBores({b}, limits()).each.front().state;
}
} // namespace

TEST_CASE("readings fall into the usual bands, in either unit") {
    CHECK(stateOf(bore("r", "21inHg")) == BoreState::good);
    CHECK(stateOf(bore("r", "19inHg")) == BoreState::pass);
    CHECK(stateOf(bore("r", "16inHg")) == BoreState::marginal);
    CHECK(stateOf(bore("r", "12inHg")) == BoreState::low);
    CHECK(stateOf(bore("r", "30 kPa")) == BoreState::heavyLeak);
}

TEST_CASE("the ratio of a stand is (v - open) / (blocked - open)") {
    CHECK(*standRatio(inHg(14), inHg(2), inHg(26)) == Approx(0.5));
    CHECK_FALSE(standRatio(inHg(14), inHg(26), inHg(26)));
}

TEST_CASE("a stand at altitude is corrected by its ratio") {
    // roughly 1 inHg less per 300 m (common practice): 18 of 22 is 21.3 of 26
    BoreReadings b = bore("r", "18inHg");
    b.open = parseVacuum("0inHg");
    b.blocked = parseVacuum("22inHg");
    CHECK(stateOf(b) == BoreState::good);
    b.vacuum = parseVacuum("12inHg"); // 14.2 of 26
    CHECK(stateOf(b) == BoreState::low);
}

TEST_CASE("a stand that has drifted is not trusted") {
    BoreReadings b = bore("r", "12inHg");
    b.jet = parseVacuum("15inHg");
    b.jetUsual = parseVacuum("17inHg");
    const BoreTable table = judgeBores({b}, limits());
    CHECK(table.standDoubted);
    CHECK(table.each.front().state == BoreState::untested);
    CHECK_THAT(table.standSentence, Catch::Contains("jet"));
    b.jetUsual = parseVacuum("15.5inHg");
    CHECK_FALSE(judgeBores({b}, limits()).standDoubted);
}

TEST_CASE("the stand's own readings are typed once for all bores") {
    BoreReadings stand;
    stand.name = "stand";
    stand.blocked = parseVacuum("15inHg");
    const BoreTable table = judgeBores({stand, bore("r", "12inHg")}, limits());
    REQUIRE(table.each.size() == 1);
    CHECK(table.standDoubted);
}

TEST_CASE("a new valve shows whether the valve or the bore is worn") {
    BoreReadings b = bore("r", "11inHg");
    b.newValve = parseVacuum("20inHg");
    CHECK(judgeBores({b}, limits()).each.front().newValveRestores);
    b.newValve = parseVacuum("12inHg");
    CHECK(judgeBores({b}, limits()).each.front().newValveFails);
}

TEST_CASE("all bores low by the same amount point at the stand, but not if one bore is good") {
    CHECK(judgeBores({bore("a", "13inHg"), bore("b", "13.5inHg"), bore("c", "14inHg")}, limits())
              .allLowAlike);
    CHECK_FALSE(
        judgeBores({bore("a", "13inHg"), bore("b", "13.5inHg"), bore("c", "21inHg")}, limits())
            .allLowAlike);
    CHECK_FALSE(judgeBores({bore("a", "9inHg"), bore("b", "13inHg"), bore("c", "14inHg")}, limits())
                    .allLowAlike);
    // read again on a stand that was checked, the readings count
    std::vector<BoreReadings> twice{bore("a", "13inHg"), bore("b", "13.5inHg"), bore("c", "14inHg"),
                                    bore("a", "13inHg"), bore("b", "13.5inHg")};
    CHECK(judgeBores(twice, limits()).allLowAlike);
    twice.push_back(bore("c", "14inHg"));
    CHECK_FALSE(judgeBores(twice, limits()).allLowAlike);
}

TEST_CASE("a bore that is loose by design passes against a known good unit") {
    BoreReadings b = bore("bleed", "13inHg");
    b.goodUnit = parseVacuum("14inHg");
    CHECK(stateOf(b) == BoreState::good);
}

TEST_CASE("a bore without a reading is untested, never good") {
    BoreReadings b;
    b.name = "r";
    CHECK(stateOf(b) == BoreState::untested);
}

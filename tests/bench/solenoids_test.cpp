// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/solenoids.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <random>
#include <string>
#include <vector>

using namespace swarfbook;

namespace {
SolenoidReadings coil(const std::string& name, const std::string& ohm, const std::string& at) {
    SolenoidReadings s;
    s.name = name;
    s.resistance = parseOhms(ohm);
    s.at = parseTemperature(at);
    return s;
}
SolenoidState stateOf(const std::vector<SolenoidReadings>& all, const std::string& name) {
    return judgeSolenoids(all, {}).find(name)->state;
}
} // namespace

TEST_CASE("coils at different temperatures are compared at 20 C") {
    // 10.0 ohm at 20 C reads 12.358 ohm at 80 C (copper standard): the two agree.
    const SolenoidTable table =
        judgeSolenoids({coil("A", "12.358", "80C"), coil("B", "10.0", "20C")}, {});
    CHECK(*table.find("A")->percentOffSiblings == Approx(0.0).margin(1e-9));
    CHECK(table.find("A")->state == SolenoidState::coilGood);
}

TEST_CASE("a right resistance never proves a solenoid good") {
    // common practice: a stuck solenoid often reads a normal resistance
    CHECK(stateOf({coil("A", "12", "20C"), coil("B", "12", "20C")}, "A") ==
          SolenoidState::coilGood);
    SolenoidReadings moves = coil("A", "12", "20C");
    moves.command = Movement::works;
    CHECK(stateOf({moves, coil("B", "12", "20C")}, "A") == SolenoidState::good);
}

TEST_CASE("a resistance with nothing to compare it with proves nothing") {
    CHECK(stateOf({coil("A", "12", "20C")}, "A") == SolenoidState::untested);
    SolenoidReadings s;
    s.name = "A";
    s.resistance = parseOhms("12");
    CHECK(stateOf({s}, "A") == SolenoidState::untested);
}

TEST_CASE("open, shorted, out of band, and open when hot are coil faults") {
    SolenoidReadings open;
    open.name = "A";
    open.openCircuit = true;
    CHECK(judgeSolenoids({open}, {}).find("A")->coilFault);
    SolenoidReadings hot = coil("A", "5.2", "20C");
    hot.hotOpen = true;
    hot.hotAt = parseTemperature("100C");
    CHECK(judgeSolenoids({hot}, {}).find("A")->coilFault);
    CHECK(judgeSolenoids({hot}, {}).find("A")->sentence == "Solenoid A: its coil opens at 100 C.");
    SolenoidReadings banded = coil("A", "9", "20C");
    banded.bandLow = parseOhms("11");
    banded.bandHigh = parseOhms("15");
    CHECK(stateOf({banded}, "A") == SolenoidState::proven);
    CHECK(stateOf({coil("A", "0.2", "20C")}, "A") == SolenoidState::proven);
}

TEST_CASE("ten per cent off its siblings is a finding even inside the band") {
    std::vector<SolenoidReadings> all{coil("A", "11.2", "20C"), coil("B", "13", "20C"),
                                      coil("C", "13.1", "20C")};
    for (SolenoidReadings& s : all) {
        s.bandLow = parseOhms("11");
        s.bandHigh = parseOhms("15");
    }
    CHECK(stateOf(all, "A") == SolenoidState::suspect);
    CHECK(stateOf(all, "B") == SolenoidState::coilGood);
}

TEST_CASE("a leak counts as proven only after flushing") {
    SolenoidReadings worse = coil("A", "12", "20C");
    worse.siblings = AgainstSiblings::worse;
    CHECK(stateOf({worse}, "A") == SolenoidState::suspect);
    worse.flushed = true;
    CHECK(stateOf({worse}, "A") == SolenoidState::proven);
    worse.demagnetised = false;
    CHECK(stateOf({worse}, "A") == SolenoidState::suspect);
}

TEST_CASE("leaking where every sibling seals is worse; leaking like them is not") {
    SolenoidReadings a = coil("A", "12", "20C"), b = coil("B", "12", "20C");
    a.leakOff = LeakSeen::leaks;
    b.leakOff = LeakSeen::seals;
    CHECK(stateOf({a, b}, "A") == SolenoidState::suspect);
    b.leakOff = LeakSeen::leaks;
    CHECK(stateOf({a, b}, "A") == SolenoidState::coilGood);
}

TEST_CASE("a swap decides: the fault moves with it or stays where it was") {
    SolenoidReadings s = coil("B", "5.1", "20C");
    s.swap = SwapResult::moves;
    CHECK(stateOf({s}, "B") == SolenoidState::proven);
    s.swap = SwapResult::stays;
    s.command = Movement::weak;
    CHECK(stateOf({s}, "B") == SolenoidState::good);
}

TEST_CASE("all coils off by the same share point at thermometer or leads") {
    std::vector<SolenoidReadings> all{coil("A", "16", "20C"), coil("B", "16.1", "20C"),
                                      coil("C", "16.2", "20C")};
    for (SolenoidReadings& s : all) {
        s.bandLow = parseOhms("11");
        s.bandHigh = parseOhms("15");
    }
    CHECK(judgeSolenoids(all, {}).allOffAlike);
    CHECK(stateOf(all, "A") != SolenoidState::proven);
    std::vector<SolenoidReadings> twice = all;
    twice.insert(twice.end(), all.begin(), all.end());
    CHECK_FALSE(judgeSolenoids(twice, {}).allOffAlike); // neither leads nor warmth were the cause
    CHECK(stateOf(twice, "A") == SolenoidState::coilGood); // the band is not theirs
    all[2] = coil("C", "13", "20C");
    all[2].bandLow = parseOhms("11");
    all[2].bandHigh = parseOhms("15");
    CHECK_FALSE(judgeSolenoids(all, {}).allOffAlike);
    CHECK(stateOf(all, "A") == SolenoidState::proven);
}

TEST_CASE("later readings of one solenoid add to the earlier ones") {
    SolenoidReadings later;
    later.name = "A";
    later.hotOpen = true;
    const auto merged = mergedSolenoids({coil("A", "5.2", "20C"), later});
    REQUIRE(merged.size() == 1);
    CHECK(merged[0].resistance);
    CHECK(merged[0].hotOpen == true);
}

namespace {

/// A solenoid whose readings are drawn at random, some of them not taken.
SolenoidReadings drawn(const std::string& name, std::mt19937& random) {
    const auto below = [&](int n) { return std::uniform_int_distribution<int>(0, n - 1)(random); };
    SolenoidReadings s = coil(name, std::to_string(8 + below(12)), "20C");
    if (below(5) == 0)
        s.resistance.reset();
    s.type = std::array{SolenoidKind::notSaid, SolenoidKind::onOff, SolenoidKind::pulsed}.at(
        static_cast<std::size_t>(below(3)));
    const std::array leaks{LeakSeen::notTested, LeakSeen::seals, LeakSeen::leaks};
    s.leakOff = leaks.at(static_cast<std::size_t>(below(3)));
    s.leakOn = leaks.at(static_cast<std::size_t>(below(3)));
    return s;
}

/// Those of its kind, by comparing it with every other.
std::vector<SolenoidReadings> siblingsOf(const SolenoidReadings& one,
                                         const std::vector<SolenoidReadings>& all) {
    std::vector<SolenoidReadings> siblings;
    for (const SolenoidReadings& other : all)
        if (other.name != one.name && other.type == one.type)
            siblings.push_back(other);
    return siblings;
}

/// Leaks in both states, or in one where every tested sibling seals.
bool leaksAlone(const SolenoidReadings& one, const std::vector<SolenoidReadings>& siblings) {
    const auto alone = [&](LeakSeen SolenoidReadings::*state) {
        std::vector<LeakSeen> tested;
        for (const SolenoidReadings& s : siblings)
            if (s.*state != LeakSeen::notTested)
                tested.push_back(s.*state);
        return one.*state == LeakSeen::leaks && !tested.empty() &&
               std::all_of(tested.begin(), tested.end(),
                           [](LeakSeen seen) { return seen == LeakSeen::seals; });
    };
    return (one.leakOff == LeakSeen::leaks && one.leakOn == LeakSeen::leaks) ||
           alone(&SolenoidReadings::leakOff) || alone(&SolenoidReadings::leakOn);
}

} // namespace

// Worked out here by comparing each solenoid with every other; the median is that of the readings
// in the middle (common practice, no source).
TEST_CASE("each solenoid is compared with all others of its kind, however many there are") {
    std::mt19937 random(20260401);
    int compared = 0, leaking = 0;
    for (int count = 1; count <= 40; ++count) {
        std::vector<SolenoidReadings> all;
        for (int i = 0; i < count; ++i)
            all.push_back(drawn("S" + std::to_string(i), random));
        const SolenoidTable table = judgeSolenoids(all, {});
        for (const SolenoidReadings& one : all) {
            const auto siblings = siblingsOf(one, all);
            std::vector<double> ohms;
            for (const SolenoidReadings& s : siblings)
                if (s.resistance)
                    ohms.push_back(s.resistance->value.value());
            std::sort(ohms.begin(), ohms.end());
            const SolenoidVerdict& verdict = *table.find(one.name);
            REQUIRE(verdict.percentOffSiblings.has_value() == (one.resistance && !ohms.empty()));
            if (verdict.percentOffSiblings) {
                const double median = (ohms[(ohms.size() - 1) / 2] + ohms[ohms.size() / 2]) / 2.0;
                REQUIRE(
                    *verdict.percentOffSiblings ==
                    Approx(100.0 * (one.resistance->value.value() / median - 1.0)).margin(1e-9));
                ++compared;
            }
            const bool says =
                verdict.sentence.find("leaks where its siblings seal") != std::string::npos;
            REQUIRE(says == leaksAlone(one, siblings));
            leaking += says ? 1 : 0;
        }
    }
    CHECK(compared > 100);
    CHECK(leaking > 30);
}

// A coil is bad at the case connector and right at its own pins if the wires between are at fault:
// common practice, no source.
TEST_CASE("readings at the case connector and at the coil's own pins are kept apart") {
    const auto read = [](MeasuredAt where, bool open) {
        SolenoidReadings s;
        s.name = "A";
        s.coilAt = where;
        if (open)
            s.openCircuit = true;
        else {
            s.resistance = Typed<Ohms>{Ohms(12.4), "12.4 ohm"};
            s.at = Typed<Celsius>{Celsius(20), "20C"};
            s.bandLow = Typed<Ohms>{Ohms(11), "11 ohm"};
            s.bandHigh = Typed<Ohms>{Ohms(15), "15 ohm"};
        }
        return s;
    };
    const auto at = [&](const std::vector<SolenoidReadings>& readings) {
        return judgeSolenoids(readings, SolenoidLimits{}).each.front();
    };
    const auto connector = MeasuredAt::connector, pins = MeasuredAt::pins;
    for (const auto& readings : {std::vector{read(connector, true), read(pins, false)},
                                 std::vector{read(pins, false), read(connector, true)}}) {
        CHECK(at(readings).harness);
        CHECK_FALSE(at(readings).coilFault);
    }
    CHECK(at({read(connector, true), read(pins, true)}).coilFault);
    const SolenoidVerdict unknown = at({read(connector, true)});
    CHECK(unknown.circuitBad);
    CHECK_FALSE(unknown.circuitGood);
    CHECK(at({read(connector, false)}).circuitGood);
    CHECK_FALSE(unknown.coilFault);
    // a coil that is right at the connector is right, as the reading goes through it
    CHECK(at({read(connector, false)}).state == SolenoidState::coilGood);
    // a later reading at the same place replaces the earlier
    CHECK_FALSE(at({read(pins, true), read(pins, false)}).coilFault);
    CHECK_FALSE(at({read(connector, true), read(connector, false), read(pins, false)}).harness);
}

TEST_CASE("a coil that differs from its siblings is at fault once it was measured again") {
    const std::vector<SolenoidReadings> once{coil("A", "15.2", "20C"), coil("B", "12.1", "20C"),
                                             coil("C", "12.0", "20C")};
    CHECK(judgeSolenoids(once, SolenoidLimits{}).find("A")->state == SolenoidState::suspect);
    std::vector<SolenoidReadings> again = once, alike = once;
    for (const SolenoidReadings& s : once)
        again.push_back(s);
    for (const char* name : {"A", "B", "C"})
        alike.push_back(coil(name, "12.1", "20C"));
    CHECK(judgeSolenoids(again, SolenoidLimits{}).find("A")->state == SolenoidState::proven);
    CHECK(judgeSolenoids(again, SolenoidLimits{}).find("B")->state != SolenoidState::proven);
    CHECK(judgeSolenoids(alike, SolenoidLimits{}).find("A")->state == SolenoidState::coilGood);
}

TEST_CASE("a leak that flushing removes was dirt") {
    SolenoidReadings leaks, seals, flushed;
    leaks.name = flushed.name = "B";
    seals.name = "A";
    leaks.leakOff = LeakSeen::leaks;
    seals.leakOff = flushed.leakOff = LeakSeen::seals;
    flushed.flushed = flushed.demagnetised = true;
    CHECK(judgeSolenoids({seals, leaks}, SolenoidLimits{}).find("B")->state ==
          SolenoidState::suspect);
    const SolenoidTable table = judgeSolenoids({seals, leaks, flushed}, SolenoidLimits{});
    CHECK(table.find("B")->cameClean);
    CHECK(table.find("B")->state == SolenoidState::good);
    flushed.leakOff = LeakSeen::leaks;
    CHECK(judgeSolenoids({seals, leaks, flushed}, SolenoidLimits{}).find("B")->state ==
          SolenoidState::proven);
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/state_of_work.h"
#include "observed.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

const Observation oneCode = observed("codes", R"({"codes": ["P0753"], "when": "before"})");
const Observation film = observed("debris", R"({"place": "pan", "what": "film"})");
const Observation level = observed("level", R"({"found": "right"})");
const Observation slip = observed("complaint", R"({"gear": "3", "symptom": "slip"})");
const Observation air = observed("air-check", R"({"element": "clutch Q", "result": "holds"})");
const Observation connector =
    observed("solenoid",
             R"({"name": "A", "ohm": {"value": 12.6, "typed": "12.6"}, "coil_at": "connector"})");
const Observation pins =
    observed("solenoid", R"({"name": "A", "open_circuit": true, "coil_at": "pins"})");
const Observation done = observed("after-repair", R"({"did": "replace solenoids"})");

} // namespace

// Source: common practice, no source.
TEST_CASE("the pan is off once debris, a solenoid's own pins or a clutch's port was reached") {
    CHECK(stateOfWork({}, false) == StateOfWork::panOn);
    CHECK(stateOfWork({oneCode, level, slip, connector}, false) == StateOfWork::panOn);
    CHECK(stateOfWork({oneCode}, true) == StateOfWork::panOff);
    for (const Observation& reached : {film, air, pins})
        CHECK(stateOfWork({oneCode, reached, slip}, false) == StateOfWork::panOff);
}

TEST_CASE("after a repair the pan is on again, until it comes off once more") {
    CHECK(stateOfWork({film, pins, done}, false) == StateOfWork::panOnAgain);
    CHECK(stateOfWork({film, done, film}, false) == StateOfWork::panOff);
    // a connector was cleaned: nothing had been taken off
    CHECK(stateOfWork({oneCode, done}, false) == StateOfWork::panOn);
}

TEST_CASE("it is known what cannot be observed in the present state of the work") {
    using enum StateOfWork;
    for (const Observation& behindThePan : {film, air, pins}) {
        CHECK_FALSE(canBeObserved(behindThePan, panOn));
        CHECK(canBeObserved(behindThePan, panOff));
        CHECK_FALSE(canBeObserved(behindThePan, panOnAgain));
    }
    CHECK(canBeObserved(level, panOn));
    CHECK_FALSE(canBeObserved(level, panOff)); // the fluid has run out
    CHECK_FALSE(canBeObserved(level, panOnAgain));
    CHECK(canBeObserved(slip, panOn));
    CHECK_FALSE(canBeObserved(slip, panOff));
    CHECK(canBeObserved(slip, panOnAgain));
    for (const StateOfWork any : {panOn, panOff, panOnAgain}) {
        CHECK(canBeObserved(oneCode, any));
        CHECK(canBeObserved(connector, any));
    }
    CHECK(needsValveBodyOff(air));
    CHECK_FALSE(needsValveBodyOff(pins));
}

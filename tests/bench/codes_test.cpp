// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "bench/codes.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

// Code numbers as in SAE J2012; families and words are ours (common practice).
TEST_CASE("ratio codes name their gear") {
    CHECK(parseCode("P0733").family == CodeFamily::ratio);
    CHECK(parseCode("P0733").gear == "3");
    CHECK(parseCode("p0736").gear == "R");
    CHECK(parseCode("P0729").gear == "6");
    CHECK(parseCode("P0730").family == CodeFamily::ratio);
    CHECK(parseCode("P0730").gear.empty());
}

// Numbers beyond the old block from memory.
TEST_CASE("ratio codes of the gears beyond the sixth name theirs as well") {
    for (const auto& [code, gear] : std::vector<std::pair<std::string, std::string>>{
             {"P076F", "7"}, {"p07d9", "8"}, {"P07F6", "9"}, {"P07F7", "10"}}) {
        INFO(code);
        CHECK(parseCode(code).family == CodeFamily::ratio);
        CHECK(parseCode(code).gear == gear);
    }
    CHECK(parseCode("P07F5").family == CodeFamily::notListed);
}

TEST_CASE("further pressure solenoids have a letter, a kind of fault and a circuit") {
    CHECK(parseCode("P2714").solenoid == "D");
    CHECK(parseCode("P2714").family == CodeFamily::performance);
    CHECK(parseCode("P2725").solenoid == "E");
    CHECK(parseCode("P2725").family == CodeFamily::electrical);
    CHECK(parseCode("P2735").intermittent);
    CHECK(parseCode("P2720").solenoid == "D");
    CHECK(parseCode("P2720").family == CodeFamily::electrical);
    CHECK(parseCode("P2739").solenoid == "F");
    CHECK(parseCode("P2739").pressureSolenoid);
    CHECK(parseCode("P2740").family == CodeFamily::notListed);
}

TEST_CASE(
    "solenoid codes name their letter and say whether they are electrical or performance codes") {
    const TroubleCode electrical = parseCode("P0753");
    CHECK(electrical.family == CodeFamily::electrical);
    CHECK(electrical.solenoid == "A");
    CHECK_FALSE(electrical.pressureSolenoid);
    CHECK(parseCode("P0758").solenoid == "B");
    CHECK(parseCode("P0763").solenoid == "C");
    CHECK(parseCode("P0774").solenoid == "E");
    CHECK(parseCode("P0774").intermittent);
    const TroubleCode performance = parseCode("P0776");
    CHECK(performance.family == CodeFamily::performance);
    CHECK(performance.solenoid == "B");
    CHECK(performance.pressureSolenoid);
    CHECK(parseCode("P0748").family == CodeFamily::electrical);
    CHECK(parseCode("P0748").solenoid == "A");
    CHECK(parseCode("P0750").family == CodeFamily::either);
    CHECK(parseCode("P0796").solenoid == "C");
}

TEST_CASE("control circuit codes are electrical, four a pressure and three a shift solenoid") {
    CHECK(parseCode("P0960").solenoid == "A");
    CHECK(parseCode("P0967").solenoid == "B");
    CHECK(parseCode("P0971").solenoid == "C");
    CHECK(parseCode("P0971").pressureSolenoid);
    CHECK(parseCode("P0974").solenoid == "A");
    CHECK(parseCode("P0986").solenoid == "E");
    CHECK(parseCode("P0986").family == CodeFamily::electrical);
}

TEST_CASE("converter codes: circuit is electrical, will not hold is performance") {
    CHECK(parseCode("P0741").family == CodeFamily::performance);
    CHECK(parseCode("P0741").converter);
    CHECK(parseCode("P0743").family == CodeFamily::electrical);
    CHECK(parseCode("P0744").intermittent);
}

TEST_CASE("shift, slip, pressure, sensor and pointer codes fall into their families") {
    CHECK(parseCode("P0782").shift == "2-3");
    CHECK(parseCode("P0894").family == CodeFamily::slip);
    CHECK(parseCode("P0868").family == CodeFamily::pressure);
    CHECK(parseCode("P0717").family == CodeFamily::input);
    CHECK(parseCode("P0717").sensor == OutsideItem::speedSensor);
    CHECK(parseCode("P0711").sensor == OutsideItem::temperatureSensor);
    CHECK(parseCode("P0719").sensor == OutsideItem::brakeSwitch);
    CHECK(parseCode("P0706").sensor == OutsideItem::selector);
    CHECK(parseCode("P0725").sensor == OutsideItem::engine);
    CHECK_FALSE(parseCode("P0733").sensor);
    CHECK(parseCode("P0786").solenoid == "timing");
    CHECK(parseCode("P0706").family == CodeFamily::input);
    CHECK(parseCode("P0700").family == CodeFamily::pointer);
    CHECK(parseCode("P0562").family == CodeFamily::supply);
    CHECK(parseCode("P0301").family == CodeFamily::engine);
    CHECK(parseCode("P2702").family == CodeFamily::notListed);
    CHECK(parseCode("P1783").family == CodeFamily::notListed);
}

TEST_CASE("any other text is refused with an example") {
    for (const char* text : {"", "P073", "0733", "P07333", "X0733", "P0-33", "slip"})
        CHECK_THROWS_WITH(parseCode(text), Catch::Contains("P0733"));
}

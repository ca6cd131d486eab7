// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/oil_level.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

namespace {

LevelCheck checkAt(const char* at, const char* low, const char* high, const char* total) {
    LevelCheck check;
    check.at = parseTemperature(at);
    check.windowLow = parseTemperature(low);
    check.windowHigh = parseTemperature(high);
    check.total = parseVolume(total);
    return check;
}

} // namespace

// Volume coefficient of oil 0.00070 / C, published table with the worked example 100 l from 20 to
// 40 C: + 1.4 l; by the same rule 8.0 l become 8.112 l at 40 C and 8.336 l at 80 C.
TEST_CASE("oil grows as the published rule of thumb says") {
    CHECK((oilAt(Litres(100), Celsius(20), Celsius(40)) - Litres(100)).value() == Approx(1.4));
    CHECK(oilAt(Litres(8), Celsius(20), Celsius(40)).value() == Approx(8.112));
    CHECK(oilAt(Litres(8), Celsius(20), Celsius(80)).value() == Approx(8.336));
    CHECK(oilPerKelvin / 1.8 == Approx(0.00039).margin(0.000005)); // 0.00039 / F, same table
}

// API MPMS 11.1 for lubricating oils, V80/V20 at 845 to 870 kg/m3: 1.0475 to 1.0461. The rule of
// thumb gives 1.042: it understates the error by about a tenth.
TEST_CASE("the rule of thumb lies within an eighth of the standard's figure") {
    const double grows = oilAt(Litres(1), Celsius(20), Celsius(80)).value() - 1.0;
    for (const double standard : {0.047527, 0.047230, 0.046646, 0.046076})
        CHECK(grows == Approx(standard).epsilon(0.125));
}

TEST_CASE("a level set too cold is too high once warm, a level set too hot is too low") {
    const LevelCheck cold = checkAt("20C", "35C", "45C", "9l");
    CHECK(levelTime(cold) == LevelTime::tooCold);
    REQUIRE(levelError(cold));
    CHECK(levelError(cold)->value() == Approx(9 * 0.0007 * 15));
    CHECK_THAT(levelSentence(cold), Catch::Contains("wait") && Catch::Contains("0.09 l too high"));
    const LevelCheck hot = checkAt("85C", "35C", "45C", "12l");
    CHECK(levelTime(hot) == LevelTime::tooHot);
    CHECK(levelError(hot)->value() == Approx(-12 * 0.0007 * 40));
    CHECK_THAT(levelSentence(hot), Catch::Contains("cooled to 45 C") && Catch::Contains("too low"));
}

TEST_CASE("at the window's own edges a level is valid") {
    CHECK(levelTime(checkAt("35C", "35C", "45C", "9l")) == LevelTime::valid);
    CHECK(levelTime(checkAt("113F", "35C", "45C", "9l")) == LevelTime::valid); // 45 C
    CHECK_FALSE(levelError(checkAt("40C", "35C", "45C", "9l")));
}

TEST_CASE("without temperature or window there is no statement") {
    LevelCheck check;
    CHECK(levelTime(check) == LevelTime::temperatureUnknown);
    check.at = parseTemperature("40C");
    CHECK(levelTime(check) == LevelTime::windowUnknown);
    CHECK_FALSE(levelError(check));
    CHECK_THAT(levelSentence(check), Catch::Contains("maker"));
}

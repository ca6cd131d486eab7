// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "bench/typed.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

TEST_CASE("units as people write them convert by their definitions") {
    // 1 inHg = 3386.389 Pa (conventional), 1 psi = 6894.757 Pa, 1 mile = 1609.344 m,
    // 1 US quart = 0.946352946 l (NIST SP 811, appendix B).
    CHECK(parseVacuum("12inHg").value.value() == Approx(12 * 3.386389));
    CHECK(parseVacuum("12 in Hg").value.value() == Approx(12 * 3.386389));
    CHECK(parseVacuum("40 kPa").value.value() == 40.0);
    CHECK(parsePressure("60 psi").value.value() == Approx(413.685).margin(0.001));
    CHECK(parsePressure("4bar").value.value() == 400.0);
    CHECK(parseTemperature("176F").value.value() == Approx(80.0));
    CHECK(parseTemperature("80 \u00b0C").value.value() == 80.0);
    CHECK(parseTemperature("-10C").value.value() == -10.0);
    CHECK(parseDistance("28,000 miles").value.value() == Approx(45061.632));
    CHECK(parseDistance("45000km").value.value() == 45000.0);
    CHECK(parseVolume("4.4 qt").value.value() == Approx(4.163953));
    CHECK(parseVolume("800ml").value.value() == Approx(0.8));
    CHECK(parseOhms("12.6").value.value() == 12.6);
    CHECK(parseOhms("12.6 \u03a9").value.value() == 12.6);
    CHECK(parseAmperes("900 mA").value.value() == Approx(0.9));
    CHECK(parseFrequency("1 kHz").value.value() == 1000.0);
    CHECK(parseDuration("2 min").value.value() == 120.0);
}

TEST_CASE("a decimal comma is a decimal comma") {
    CHECK(parseOhms("12,6 ohm").value.value() == Approx(12.6));
    CHECK(parseVolume("0,4l").value.value() == Approx(0.4));
    CHECK(parseVolume("0,400 l").value.value() == Approx(0.4));
}

TEST_CASE("the typed text is kept beside the converted value") {
    CHECK(parseVacuum("12inHg").typed == "12inHg");
}

TEST_CASE("a value that cannot be true is questioned") {
    CHECK_THROWS_WITH(parseOhms("12 kohm"),
                      Catch::Contains("12000 ohm") && Catch::Contains("open"));
    CHECK_THROWS_WITH(parseTemperature("900C"), Catch::Contains("900"));
    CHECK_THROWS_AS(parseVacuum("45 inHg"), UsageError); // perfect vacuum is 29.9 inHg
    CHECK_THROWS_AS(parseVacuum("-12 inHg"), UsageError);
    CHECK_THROWS_AS(parseDistance("-5km"), UsageError);
    CHECK_THROWS_AS(parseDistance("9000000 km"), UsageError);
    CHECK_THROWS_AS(parseVolume("420 l"), UsageError);
    CHECK_THROWS_WITH(parseAmperes("900"), Catch::Contains("mA"));
}

TEST_CASE("a very unusual value is taken once it is confirmed, an impossible one never") {
    CHECK(parseOhms("12 kohm", Sure::meant).value.value() == 12000.0);
    CHECK(parseOhms("12 kohm", Sure::meant).sure);
    CHECK_FALSE(parseOhms("12 ohm", Sure::meant).sure);
    CHECK(parseTemperature("900C", Sure::meant).value.value() == 900.0);
    CHECK_THROWS_WITH(parseOhms("12 kohm"), Catch::Contains("--sure"));
    CHECK_THROWS_WITH(parseVacuum("45 inHg", Sure::meant), Catch::Contains("impossible"));
    CHECK_THROWS_AS(parseTemperature("-300C", Sure::meant), UsageError); // below absolute zero
    CHECK_THROWS_AS(parseDistance("-5km", Sure::meant), UsageError);
}

TEST_CASE("units are read as people write them") {
    // 1 US pint = 0.473176 l, 1 US gallon = 3.785412 l (NIST SP 811, appendix B)
    CHECK(parseVolume("2 pints").value.value() == Approx(0.946353));
    CHECK(parseVolume("1 gal").value.value() == Approx(3.785412));
    CHECK(parseVolume("1 1/2 quarts").value.value() == Approx(1.5 * 0.946352946));
    CHECK(parseVolume("1/2 l").value.value() == 0.5);
    CHECK(parseVacuum("12 in. Hg").value.value() == Approx(12 * 3.386389));
    CHECK(parseVacuum("12\"").value.value() == Approx(12 * 3.386389));
    CHECK(parseVacuum("12 inches Hg").value.value() == Approx(12 * 3.386389).margin(0.001));
    CHECK(parseTemperature("80 deg C").value.value() == 80.0);
    CHECK(parseTemperature("212 \u00b0F").value.value() == Approx(100.0));
    CHECK(parsePressure("60 PSI").value.value() == Approx(413.685).margin(0.001));
    CHECK(parseDistance("28k miles").value.value() == Approx(45061.632));
    CHECK_THROWS_WITH(parseDistance("45.000 km"), Catch::Contains("two ways"));
    CHECK(parseDistance("45.000 km", Sure::meant).value.value() == 45.0);
}

// 101.325 kPa = 29.921252 inHg, 29.92 inHg = 101.320759 kPa (conventional inch of mercury,
// 13 595.1 kg/m3 * 9.80665 m/s2 * 25.4 mm = 3386.388640 Pa)
TEST_CASE("inches of mercury and kilopascals agree with their definition") {
    CHECK(parseVacuum("29.92 inHg").value.value() == Approx(101.320759).epsilon(1e-6));
    CHECK(parseVacuum("1 inHg").value.value() * 29.921252 == Approx(101.325).epsilon(1e-6));
    CHECK(3.386389 == Approx(13595.1 * 9.80665 * 0.0254 / 1000.0).epsilon(1e-6));
}

TEST_CASE("a missing unit is asked for if it matters") {
    CHECK_THROWS_WITH(parseTemperature("80"), Catch::Contains("no unit"));
    CHECK_THROWS_WITH(parseVacuum("12"), Catch::Contains("12 inHg"));
    CHECK_THROWS_AS(parseDistance("45000"), UsageError);
}

TEST_CASE("text without a number is refused with an example") {
    for (const char* text : {"", "ohm", "12..6", "1e400", "nan", "inf", "twelve", "12 furlongs"})
        CHECK_THROWS_AS(parseOhms(text), UsageError);
}

TEST_CASE("a length is typed in millimetres, decimal inches or fractions of an inch") {
    // 1 inch = 25.4 mm exactly (1959 agreement; NIST SP 811).
    CHECK(parseLength("2.00mm").value.value() == 2.0);
    CHECK(parseLength("0,5 mm").value.value() == 0.5);
    CHECK(parseLength("0.125 in").value.value() == Approx(3.175));
    CHECK(parseLength("5/64in").value.value() == Approx(25.4 * 5 / 64));
    CHECK(parseLength("1 1/4\"").value.value() == Approx(31.75));
    CHECK(parseLength("20 thou").value.value() == Approx(0.508));
    CHECK(parseLength("500 um").value.value() == Approx(0.5));
    CHECK(parseLength("500 \u00b5m").value.value() == Approx(0.5));
    CHECK(parseLength("5/64in").typed == "5/64in");
    for (const char* wrong :
         {"2", "64/5in", "5/0in", "mm", "0 mm", "2 m", "-2 mm", "5/64", "300mm"})
        CHECK_THROWS_AS(parseLength(wrong), UsageError);
}

TEST_CASE("how finely a length was typed is half a step of its last digit") {
    CHECK(halfLastDigit(parseLength("2.00mm")).value() == Approx(0.005));
    CHECK(halfLastDigit(parseLength("2 mm")).value() == Approx(0.5));
    CHECK(halfLastDigit(parseLength("0,5mm")).value() == Approx(0.05));
    CHECK(halfLastDigit(parseLength("0.1250in")).value() == Approx(0.00005 * 25.4));
    CHECK(halfLastDigit(parseLength("5/64in")).value() == 0.0);
}

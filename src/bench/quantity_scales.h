// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/shown_units.h"
#include "bench/typed.h"

#include <span>
#include <string_view>

/// How quantities are written at the bench, and their usual values. For bench/typed.cpp alone.
namespace swarfbook::scales {

/// One way of writing a unit: value in the kept unit = number * factor + offset.
struct UnitName {
    std::string_view name;
    double factor;
    double offset = 0.0;
};

/// Usual and possible values of a kind of quantity. A value outside `low` to `high` is questioned;
/// a value outside `least` to `most` is impossible.
struct Scale {
    std::string_view what; ///< "a coil's resistance"
    std::string_view unit; ///< of the kept value
    std::span<const UnitName> names;
    bool bareNumber; ///< a number without a unit is in the kept unit
    double low, high;
    double least, most;
    std::string_view advice; ///< for a questioned value
    std::string_view example;
};

inline constexpr double kpaPerPsi = 6.894757;
inline constexpr double celsiusPerFahrenheit = 5.0 / 9.0;

inline constexpr double mmPerInch = 25.4;

inline constexpr UnitName lengthNames[] = {{"mm", 1},
                                           {"cm", 10},
                                           {"um", 0.001},
                                           {"\u00b5m", 0.001},
                                           {"\u03bcm", 0.001},
                                           {"in", mmPerInch},
                                           {"inch", mmPerInch},
                                           {"inches", mmPerInch},
                                           {"thou", mmPerInch / 1000.0},
                                           {"mil", mmPerInch / 1000.0}};
inline constexpr UnitName ohmNames[] = {{"ohm", 1},      {"ohms", 1},        {"r", 1},
                                        {"kohm", 1000},  {"k", 1000},        {"kohms", 1000},
                                        {"megohm", 1e6}, {"milliohm", 0.001}};
inline constexpr UnitName temperatureNames[] = {
    {"c", 1},
    {"degc", 1},
    {"degreesc", 1},
    {"celsius", 1},
    {"f", celsiusPerFahrenheit, -32 * celsiusPerFahrenheit},
    {"degf", celsiusPerFahrenheit, -32 * celsiusPerFahrenheit},
    {"degreesf", celsiusPerFahrenheit, -32 * celsiusPerFahrenheit},
    {"fahrenheit", celsiusPerFahrenheit, -32 * celsiusPerFahrenheit}};
inline constexpr UnitName pressureNames[] = {
    {"kpa", 1},          {"bar", 100},         {"bars", 100},      {"mbar", 0.1},
    {"psi", kpaPerPsi},  {"psig", kpaPerPsi},  {"mpa", 1000},      {"pa", 0.001},
    {"mmhg", 0.1333224}, {"inhg", kpaPerInHg}, {"kg/cm2", 98.0665}};
inline constexpr UnitName vacuumNames[] = {
    {"kpa", 1},          {"inhg", kpaPerInHg},     {"ininhg", kpaPerInHg}, {"in", kpaPerInHg},
    {"hg", kpaPerInHg},  {"inchhg", kpaPerInHg},   {"inch", kpaPerInHg},   {"inches", kpaPerInHg},
    {"bar", 100},        {"incheshg", kpaPerInHg}, {"mbar", 0.1},          {"psi", kpaPerPsi},
    {"mmhg", 0.1333224}, {"inofhg", kpaPerInHg},   {"pa", 0.001},          {"cmhg", 1.333224}};
inline constexpr UnitName volumeNames[] = {{"l", 1},
                                           {"litre", 1},
                                           {"litres", 1},
                                           {"liter", 1},
                                           {"liters", 1},
                                           {"ltr", 1},
                                           {"ml", 0.001},
                                           {"cc", 0.001},
                                           {"cl", 0.01},
                                           {"qt", litresPerQuart},
                                           {"qts", litresPerQuart},
                                           {"quart", litresPerQuart},
                                           {"quarts", litresPerQuart},
                                           {"usqt", litresPerQuart},
                                           {"pt", litresPerQuart / 2},
                                           {"pint", litresPerQuart / 2},
                                           {"pints", litresPerQuart / 2},
                                           {"gal", litresPerQuart * 4},
                                           {"gallon", litresPerQuart * 4},
                                           {"gallons", litresPerQuart * 4}};
inline constexpr UnitName distanceNames[] = {{"km", 1},
                                             {"kms", 1},
                                             {"mi", kmPerMile},
                                             {"mile", kmPerMile},
                                             {"miles", kmPerMile},
                                             {"kkm", 1000},
                                             {"kmi", 1000 * kmPerMile},
                                             {"m", 0.001},
                                             {"kilometres", 1},
                                             {"kilometers", 1},
                                             {"kmiles", 1000 * kmPerMile}};
inline constexpr UnitName voltNames[] = {
    {"v", 1}, {"volt", 1}, {"volts", 1}, {"vdc", 1}, {"mv", 0.001}};
inline constexpr UnitName ampereNames[] = {
    {"a", 1}, {"amp", 1}, {"amps", 1}, {"ma", 0.001}, {"milliamps", 0.001}};
inline constexpr UnitName hertzNames[] = {{"hz", 1}, {"khz", 1000}};
inline constexpr UnitName secondNames[] = {{"s", 1},      {"sec", 1},      {"secs", 1},
                                           {"second", 1}, {"seconds", 1},  {"min", 60},
                                           {"mins", 60},  {"minutes", 60}, {"minute", 60}};

inline constexpr std::string_view checkDigits = "Check the digits and the unit.";

// The usual values are common practice of the bench, no source.
inline constexpr Scale ohmScale{
    "a coil's resistance",
    "ohm",
    ohmNames,
    true,
    0,
    200,
    0,
    1e8,
    "Check the meter's range; a coil without continuity is typed as \"open\".",
    "12.6 ohm"};
inline constexpr Scale temperatureScale{"a temperature at the bench",
                                        "C",
                                        temperatureNames,
                                        false,
                                        -40,
                                        200,
                                        -273.15,
                                        1200,
                                        checkDigits,
                                        "80C"};
inline constexpr Scale vacuumScale{"a vacuum reading",
                                   "kPa",
                                   vacuumNames,
                                   false,
                                   0,
                                   102,
                                   0,
                                   102,
                                   "Type it as a positive number and check the unit.",
                                   "12 inHg"};
inline constexpr Scale pressureScale{"a pressure", "kPa", pressureNames, false,       0,
                                     4000,         0,     100000,        checkDigits, "60 psi"};
inline constexpr Scale volumeScale{"a volume of fluid", "litres", volumeNames, false, 0, 25, 0, 100,
                                   checkDigits,         "4.2 l"};
inline constexpr Scale distanceScale{"a distance", "km", distanceNames, false,       0,
                                     1500000,      0,    10000000,      checkDigits, "45000 km"};
inline constexpr Scale voltScale{"a voltage here", "V",    voltNames, true, 0, 32, 0, 60,
                                 checkDigits,      "7.2 V"};
inline constexpr Scale ampereScale{"a solenoid's current",
                                   "A",
                                   ampereNames,
                                   true,
                                   0,
                                   10,
                                   0,
                                   100,
                                   "If the meter shows milliamperes, type mA.",
                                   "900 mA"};
inline constexpr Scale hertzScale{"a drive frequency", "Hz",    hertzNames, true, 0, 20000, 0, 1e6,
                                  checkDigits,         "200 Hz"};
inline constexpr Scale secondScale{"a duration", "s", secondNames, true,        0,
                                   3600,         0,   86400,       checkDigits, "30 s"};

inline constexpr UnitName flowNames[] = {{"ml/min", 1},   {"cc/min", 1}, {"cm3/min", 1},
                                         {"l/min", 1000}, {"ml/s", 60},  {"cc/s", 60}};
inline constexpr Scale flowScale{"the flow through a solenoid",
                                 "ml/min",
                                 flowNames,
                                 false,
                                 0,
                                 5000,
                                 0,
                                 100000,
                                 checkDigits,
                                 "12 ml/min"};
inline constexpr Scale smallLengthScale{"a length here", "mm", lengthNames, false, 0.01, 50, 0, 500,
                                        checkDigits,     "2mm"};
inline constexpr Scale lengthScale{"the size of a known thing",
                                   "mm",
                                   lengthNames,
                                   false,
                                   0.02,
                                   100,
                                   0.02,
                                   100,
                                   checkDigits,
                                   "2.00mm"};

} // namespace swarfbook::scales

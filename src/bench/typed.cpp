// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/typed.h"

#include "base/errors.h"
#include "base/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <span>
#include <utility>

namespace swarfbook {
namespace {

/// One way of writing a unit: value in the kept unit = number * factor + offset.
struct UnitName {
    std::string_view name;
    double factor;
    double offset = 0.0;
};

/// What a kind of quantity may look like.
struct Scale {
    std::string_view what; ///< "a coil's resistance"
    std::string_view unit; ///< of the kept value
    std::span<const UnitName> names;
    bool bareNumber;         ///< a number without a unit is in the kept unit
    double low, high;        ///< what can be true at the bench, kept unit
    std::string_view advice; ///< when it cannot be true
    std::string_view example;
};

void replaceAll(std::string& text, std::string_view from, std::string_view to) {
    for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at))
        text.replace(at, from.size(), to);
}

/// Lower case, no spaces, the Greek and the degree sign spelt in letters.
std::string plain(std::string_view text) {
    std::string result(text);
    replaceAll(result, "\u03a9", "ohm"); // Greek capital omega
    replaceAll(result, "\u2126", "ohm"); // ohm sign
    replaceAll(result, "\u00b0", "");
    replaceAll(result, "\u2212", "-");
    replaceAll(result, "\"", "in");
    result = lowered(result);
    std::erase_if(result, [](char c) { return c == ' ' || c == '\t' || c == '\''; });
    return result;
}

/// A comma before exactly three last digits of a whole number groups thousands, else it is the
/// decimal sign.
std::string withoutCommas(std::string number) {
    const std::size_t comma = number.rfind(',');
    if (comma == std::string::npos)
        return number;
    const bool groups = number.size() - comma == 4 && comma >= 1 && number[0] != '0' &&
                        number.find('.') == std::string::npos;
    if (groups)
        std::erase(number, ',');
    else if (std::count(number.begin(), number.end(), ',') == 1)
        std::replace(number.begin(), number.end(), ',', '.');
    return number;
}

[[noreturn]] void unreadable(std::string_view text, const Scale& scale) {
    throw UsageError(fmt::format("\"{}\" cannot be read as {}. Type it like \"{}\".", text,
                                 scale.what, scale.example));
}

/// Number and unit, apart.
std::pair<double, std::string> split(std::string_view text, const Scale& scale) {
    const std::string whole = plain(text);
    std::size_t end = 0;
    while (end < whole.size() &&
           std::string_view("+-0123456789.,").find(whole[end]) != std::string_view::npos)
        ++end;
    std::string number = withoutCommas(whole.substr(0, end));
    if (!number.empty() && number[0] == '+')
        number.erase(0, 1);
    double value = 0.0;
    const auto [stop, error] = std::from_chars(number.data(), number.data() + number.size(), value);
    if (number.empty() || error != std::errc() || stop != number.data() + number.size())
        unreadable(text, scale);
    return {value, whole.substr(end)};
}

double convert(std::string_view text, const Scale& scale) {
    const auto [number, unit] = split(text, scale);
    double value = number;
    if (unit.empty()) {
        if (!scale.bareNumber)
            throw UsageError(
                fmt::format("\"{}\" has no unit. Type it like \"{}\".", text, scale.example));
    } else {
        const auto known = std::find_if(scale.names.begin(), scale.names.end(),
                                        [&, &u = unit](const UnitName& n) { return n.name == u; });
        if (known == scale.names.end())
            unreadable(text, scale);
        value = number * known->factor + known->offset;
    }
    if (!(value >= scale.low && value <= scale.high))
        throw UsageError(fmt::format("\"{}\" is {:g} {}; {} lies between {:g} and {:g} {}. {}",
                                     text, value, scale.unit, scale.what, scale.low, scale.high,
                                     scale.unit, scale.advice));
    return value;
}

template <class Unit> Typed<Unit> read(std::string_view text, const Scale& scale) {
    return {Unit(convert(text, scale)), std::string(text)};
}

constexpr double kpaPerInHg = 3.386389; // conventional value
constexpr double kpaPerPsi = 6.894757;
constexpr double kmPerMile = 1.609344;
constexpr double litresPerQuart = 0.946352946;
constexpr double celsiusPerFahrenheit = 5.0 / 9.0;

constexpr double mmPerInch = 25.4;

/// "5/64in" and "1 1/4in" with a decimal number in place of the fraction; other text as it is.
std::string withoutFraction(std::string_view text) {
    const std::size_t slash = text.find('/');
    if (slash == std::string_view::npos)
        return std::string(text);
    const std::string all(text);
    double whole = 0.0;
    int over = 0, under = 0, used = 0;
    if (std::sscanf(all.c_str(), " %lf %d / %d%n", &whole, &over, &under, &used) != 3 &&
        (whole = 0.0, std::sscanf(all.c_str(), " %d / %d%n", &over, &under, &used) != 2))
        return all;
    if (over < 1 || under < 2 || over >= under || whole < 0.0)
        return all;
    return fmt::format("{:.9f}{}", whole + static_cast<double>(over) / under,
                       all.substr(static_cast<std::size_t>(used)));
}

constexpr UnitName lengthNames[] = {{"mm", 1},
                                    {"cm", 10},
                                    {"um", 0.001},
                                    {"\u00b5m", 0.001},
                                    {"\u03bcm", 0.001},
                                    {"in", mmPerInch},
                                    {"inch", mmPerInch},
                                    {"inches", mmPerInch},
                                    {"thou", mmPerInch / 1000.0},
                                    {"mil", mmPerInch / 1000.0}};
constexpr UnitName ohmNames[] = {{"ohm", 1}, {"ohms", 1}, {"r", 1}, {"kohm", 1000}, {"k", 1000}};
constexpr UnitName temperatureNames[] = {
    {"c", 1},
    {"degc", 1},
    {"celsius", 1},
    {"f", celsiusPerFahrenheit, -32 * celsiusPerFahrenheit},
    {"degf", celsiusPerFahrenheit, -32 * celsiusPerFahrenheit},
    {"fahrenheit", celsiusPerFahrenheit, -32 * celsiusPerFahrenheit}};
constexpr UnitName pressureNames[] = {
    {"kpa", 1},          {"bar", 100},         {"mbar", 0.1},
    {"psi", kpaPerPsi},  {"inhg", kpaPerInHg}, {"ininhg", kpaPerInHg},
    {"mmhg", 0.1333224}, {"pa", 0.001},        {"mpa", 1000}};
constexpr UnitName volumeNames[] = {{"l", 1},
                                    {"litre", 1},
                                    {"litres", 1},
                                    {"liter", 1},
                                    {"liters", 1},
                                    {"ml", 0.001},
                                    {"cc", 0.001},
                                    {"cl", 0.01},
                                    {"qt", litresPerQuart},
                                    {"qts", litresPerQuart},
                                    {"quart", litresPerQuart},
                                    {"quarts", litresPerQuart}};
constexpr UnitName distanceNames[] = {{"km", 1},           {"mi", kmPerMile},
                                      {"mile", kmPerMile}, {"miles", kmPerMile},
                                      {"kkm", 1000},       {"m", 0.001}};
constexpr UnitName voltNames[] = {{"v", 1}, {"volt", 1}, {"volts", 1}, {"mv", 0.001}};
constexpr UnitName ampereNames[] = {{"a", 1}, {"amp", 1}, {"amps", 1}, {"ma", 0.001}};
constexpr UnitName hertzNames[] = {{"hz", 1}, {"khz", 1000}};
constexpr UnitName secondNames[] = {{"s", 1},     {"sec", 1},      {"seconds", 1}, {"min", 60},
                                    {"mins", 60}, {"minutes", 60}, {"minute", 60}};

constexpr Scale ohmScale{"a coil's resistance",
                         "ohm",
                         ohmNames,
                         true,
                         0,
                         200,
                         "Check the meter's range; a coil without continuity is typed as \"open\".",
                         "12.6 ohm"};
constexpr Scale temperatureScale{
    "a temperature at the bench",     "C",  temperatureNames, false, -40, 200,
    "Check the digits and the unit.", "80C"};
constexpr Scale vacuumScale{"a vacuum reading",
                            "kPa",
                            pressureNames,
                            false,
                            0,
                            102,
                            "Type it as a positive number and check the unit.",
                            "12 inHg"};
constexpr Scale pressureScale{
    "a pressure", "kPa", pressureNames, false, 0, 4000, "Check the digits and the unit.", "60 psi"};
constexpr Scale volumeScale{"a volume of fluid",
                            "litres",
                            volumeNames,
                            false,
                            0,
                            60,
                            "Check the digits and the unit.",
                            "4.2 l"};
constexpr Scale distanceScale{
    "a distance", "km", distanceNames, false, 0, 1500000, "Check the digits and the unit.",
    "45000 km"};
constexpr Scale voltScale{
    "a voltage here", "V", voltNames, true, 0, 60, "Check the digits and the unit.", "7.2 V"};
constexpr Scale ampereScale{"a solenoid's current",
                            "A",
                            ampereNames,
                            true,
                            0,
                            10,
                            "If the meter shows milliamperes, type mA.",
                            "900 mA"};
constexpr Scale hertzScale{"a drive frequency",
                           "Hz",
                           hertzNames,
                           true,
                           0,
                           20000,
                           "Check the digits and the unit.",
                           "200 Hz"};
constexpr Scale lengthScale{
    "the size of a known thing",      "mm",    lengthNames, false, 0.02, 100,
    "Check the digits and the unit.", "2.00mm"};
constexpr Scale secondScale{
    "a duration", "s", secondNames, true, 0, 3600, "Check the digits and the unit.", "30 s"};

} // namespace

Typed<Ohms> parseOhms(std::string_view text) {
    return read<Ohms>(text, ohmScale);
}
Typed<Celsius> parseTemperature(std::string_view text) {
    return read<Celsius>(text, temperatureScale);
}
Typed<Kilopascals> parseVacuum(std::string_view text) {
    return read<Kilopascals>(text, vacuumScale);
}
Typed<Kilopascals> parsePressure(std::string_view text) {
    return read<Kilopascals>(text, pressureScale);
}
Typed<Litres> parseVolume(std::string_view text) {
    return read<Litres>(text, volumeScale);
}
Typed<Kilometres> parseDistance(std::string_view text) {
    return read<Kilometres>(text, distanceScale);
}
Typed<Volts> parseVolts(std::string_view text) {
    return read<Volts>(text, voltScale);
}
Typed<Amperes> parseAmperes(std::string_view text) {
    return read<Amperes>(text, ampereScale);
}
Typed<Hertz> parseFrequency(std::string_view text) {
    return read<Hertz>(text, hertzScale);
}
Typed<Seconds> parseDuration(std::string_view text) {
    return read<Seconds>(text, secondScale);
}
Typed<Millimetres> parseLength(std::string_view text) {
    return {Millimetres(convert(withoutFraction(text), lengthScale)), std::string(text)};
}

Millimetres halfLastDigit(const Typed<Millimetres>& length) {
    if (length.typed.find('/') != std::string::npos)
        return {};
    const auto [number, unit] = split(length.typed, lengthScale);
    const std::string whole = plain(length.typed);
    const std::size_t point = whole.find_first_of(".,");
    const std::size_t end = whole.find_first_not_of("0123456789.,");
    const double decimals = point < end ? static_cast<double>(end - point - 1) : 0.0;
    const double perStep = number > 0.0 ? length.value.value() / number : 1.0;
    return Millimetres(0.5 * perStep * std::pow(10.0, -decimals));
}

} // namespace swarfbook

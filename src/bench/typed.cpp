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
#include <optional>
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

/// What a kind of quantity may look like. Outside `low` to `high` a value is questioned, outside
/// `least` to `most` it cannot be.
struct Scale {
    std::string_view what; ///< "a coil's resistance"
    std::string_view unit; ///< of the kept value
    std::span<const UnitName> names;
    bool bareNumber; ///< a number without a unit is in the kept unit
    double low, high;
    double least, most;
    std::string_view advice; ///< for what is questioned
    std::string_view example;
};

void replaceAll(std::string& text, std::string_view from, std::string_view to) {
    for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at))
        text.replace(at, from.size(), to);
}

/// The whole number at the start of `text` from `at` on, and where it ends; nothing if there is
/// none.
std::optional<std::pair<double, std::size_t>> wholeAt(const std::string& text, std::size_t at) {
    std::size_t end = at;
    while (end < text.size() && end - at < 6 && text[end] >= '0' && text[end] <= '9')
        ++end;
    if (end == at)
        return std::nullopt;
    return std::pair{std::stod(text.substr(at, end - at)), end};
}

/// "1/2 qt" and "1 1/2 qt" with the fraction written as a decimal.
std::string withoutFraction(const std::string& text) {
    auto first = wholeAt(text, 0);
    double whole = 0.0;
    if (first && first->second < text.size() && text[first->second] == ' ') {
        if (const auto next = wholeAt(text, first->second + 1)) {
            whole = first->first;
            first = next;
        }
    }
    if (!first || first->second >= text.size() || text[first->second] != '/')
        return text;
    const auto below = wholeAt(text, first->second + 1);
    if (!below || below->first == 0.0)
        return text;
    return fmt::format("{}{}", whole + first->first / below->first, text.substr(below->second));
}

/// Lower case, no spaces, the Greek and the degree sign spelt in letters.
std::string plain(std::string_view text) {
    std::string result(text);
    replaceAll(result, "\u03a9", "ohm"); // Greek capital omega
    replaceAll(result, "\u2126", "ohm"); // ohm sign
    replaceAll(result, "\u00b0", "");
    replaceAll(result, "\u2212", "-");
    for (const std::string_view blank : {"\u00a0", "\u2009", "\u202f"}) // no-break, thin, narrow
        replaceAll(result, blank, " ");
    replaceAll(result, "\"", "in");
    result = withoutFraction(lowered(result));
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
    std::string unit = whole.substr(end);
    std::erase(unit, '.'); // "in. Hg"
    return {value, unit};
}

double convert(std::string_view text, const Scale& scale) {
    const auto [number, unit] = split(text, scale);
    if (unit.empty()) {
        if (!scale.bareNumber)
            throw UsageError(
                fmt::format("\"{}\" has no unit. Type it like \"{}\".", text, scale.example));
        return number;
    }
    const auto known = std::find_if(scale.names.begin(), scale.names.end(),
                                    [&, &u = unit](const UnitName& n) { return n.name == u; });
    if (known == scale.names.end())
        unreadable(text, scale);
    return number * known->factor + known->offset;
}

/// Refuses what cannot be, questions what is hardly ever so. @return whether it is unusual.
bool question(double value, std::string_view text, const Scale& scale, Sure sure) {
    if (!(value >= scale.least && value <= scale.most))
        throw UsageError(fmt::format("\"{}\" is {:g} {}, which cannot be: {} lies between {:g} and "
                                     "{:g} {}. {}",
                                     text, value, scale.unit, scale.what, scale.least, scale.most,
                                     scale.unit, scale.advice));
    const bool unusual = value < scale.low || value > scale.high;
    if (unusual && sure == Sure::ask)
        throw UsageError(fmt::format("\"{}\" is {:g} {}; {} usually lies between {:g} and {:g} {}. "
                                     "{} If it is really so, type the same again with --sure.",
                                     text, value, scale.unit, scale.what, scale.low, scale.high,
                                     scale.unit, scale.advice));
    return unusual;
}

template <class Unit> Typed<Unit> read(std::string_view text, const Scale& scale, Sure sure) {
    const double value = convert(text, scale);
    const bool unusual = question(value, text, scale, sure);
    return {Unit(value), std::string(text), unusual};
}

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
    std::string all(text);
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
constexpr UnitName ohmNames[] = {{"ohm", 1},      {"ohms", 1},        {"r", 1},
                                 {"kohm", 1000},  {"k", 1000},        {"kohms", 1000},
                                 {"megohm", 1e6}, {"milliohm", 0.001}};
constexpr UnitName temperatureNames[] = {
    {"c", 1},
    {"degc", 1},
    {"degreesc", 1},
    {"celsius", 1},
    {"f", celsiusPerFahrenheit, -32 * celsiusPerFahrenheit},
    {"degf", celsiusPerFahrenheit, -32 * celsiusPerFahrenheit},
    {"degreesf", celsiusPerFahrenheit, -32 * celsiusPerFahrenheit},
    {"fahrenheit", celsiusPerFahrenheit, -32 * celsiusPerFahrenheit}};
constexpr UnitName pressureNames[] = {{"kpa", 1},           {"bar", 100},       {"bars", 100},
                                      {"mbar", 0.1},        {"psi", kpaPerPsi}, {"psig", kpaPerPsi},
                                      {"mpa", 1000},        {"pa", 0.001},      {"mmhg", 0.1333224},
                                      {"inhg", kpaPerInHg}, {"kg/cm2", 98.0665}};
constexpr UnitName vacuumNames[] = {
    {"kpa", 1},          {"inhg", kpaPerInHg},     {"ininhg", kpaPerInHg}, {"in", kpaPerInHg},
    {"hg", kpaPerInHg},  {"inchhg", kpaPerInHg},   {"inch", kpaPerInHg},   {"inches", kpaPerInHg},
    {"bar", 100},        {"incheshg", kpaPerInHg}, {"mbar", 0.1},          {"psi", kpaPerPsi},
    {"mmhg", 0.1333224}, {"inofhg", kpaPerInHg},   {"pa", 0.001},          {"cmhg", 1.333224}};
constexpr UnitName volumeNames[] = {{"l", 1},
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
constexpr UnitName distanceNames[] = {{"km", 1},
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
constexpr UnitName voltNames[] = {{"v", 1}, {"volt", 1}, {"volts", 1}, {"vdc", 1}, {"mv", 0.001}};
constexpr UnitName ampereNames[] = {
    {"a", 1}, {"amp", 1}, {"amps", 1}, {"ma", 0.001}, {"milliamps", 0.001}};
constexpr UnitName hertzNames[] = {{"hz", 1}, {"khz", 1000}};
constexpr UnitName secondNames[] = {{"s", 1},      {"sec", 1},      {"secs", 1},
                                    {"second", 1}, {"seconds", 1},  {"min", 60},
                                    {"mins", 60},  {"minutes", 60}, {"minute", 60}};

constexpr std::string_view checkDigits = "Check the digits and the unit.";

// What is usual is common practice of the bench, no source.
constexpr Scale ohmScale{"a coil's resistance",
                         "ohm",
                         ohmNames,
                         true,
                         0,
                         200,
                         0,
                         1e8,
                         "Check the meter's range; a coil without continuity is typed as \"open\".",
                         "12.6 ohm"};
constexpr Scale temperatureScale{"a temperature at the bench",
                                 "C",
                                 temperatureNames,
                                 false,
                                 -40,
                                 200,
                                 -273.15,
                                 1200,
                                 checkDigits,
                                 "80C"};
constexpr Scale vacuumScale{"a vacuum reading",
                            "kPa",
                            vacuumNames,
                            false,
                            0,
                            102,
                            0,
                            102,
                            "Type it as a positive number and check the unit.",
                            "12 inHg"};
constexpr Scale pressureScale{"a pressure", "kPa", pressureNames, false,       0,
                              4000,         0,     100000,        checkDigits, "60 psi"};
constexpr Scale volumeScale{"a volume of fluid", "litres", volumeNames, false, 0, 25, 0, 100,
                            checkDigits,         "4.2 l"};
constexpr Scale distanceScale{"a distance", "km", distanceNames, false,       0,
                              1500000,      0,    10000000,      checkDigits, "45000 km"};
constexpr Scale voltScale{"a voltage here", "V",    voltNames, true, 0, 32, 0, 60,
                          checkDigits,      "7.2 V"};
constexpr Scale ampereScale{"a solenoid's current",
                            "A",
                            ampereNames,
                            true,
                            0,
                            10,
                            0,
                            100,
                            "If the meter shows milliamperes, type mA.",
                            "900 mA"};
constexpr Scale hertzScale{"a drive frequency", "Hz",    hertzNames, true, 0, 20000, 0, 1e6,
                           checkDigits,         "200 Hz"};
constexpr Scale secondScale{"a duration", "s", secondNames, true,        0,
                            3600,         0,   86400,       checkDigits, "30 s"};

constexpr UnitName flowNames[] = {{"ml/min", 1},   {"cc/min", 1}, {"cm3/min", 1},
                                  {"l/min", 1000}, {"ml/s", 60},  {"cc/s", 60}};
constexpr Scale flowScale{"what passes a solenoid",
                          "ml/min",
                          flowNames,
                          false,
                          0,
                          5000,
                          0,
                          100000,
                          checkDigits,
                          "12 ml/min"};
constexpr Scale smallLengthScale{"a length here", "mm", lengthNames, false, 0.01, 50, 0, 500,
                                 checkDigits,     "2mm"};
constexpr Scale lengthScale{"the size of a known thing",
                            "mm",
                            lengthNames,
                            false,
                            0.02,
                            100,
                            0.02,
                            100,
                            checkDigits,
                            "2.00mm"};

/// "45.000 km" means forty-five thousand where a point groups thousands.
void questionPoint(std::string_view text, Sure sure) {
    const std::size_t point = text.find('.');
    if (sure == Sure::meant || point == std::string_view::npos || point == 0 || point > 3 ||
        text[0] == '0')
        return;
    std::size_t digits = 0;
    while (point + 1 + digits < text.size() && text[point + 1 + digits] >= '0' &&
           text[point + 1 + digits] <= '9')
        ++digits;
    if (digits == 3)
        throw UsageError(fmt::format("\"{}\" can be read in two ways. Type thousands without a "
                                     "point; if decimals are meant, type the same again with "
                                     "--sure.",
                                     text));
}

} // namespace

Typed<Ohms> parseOhms(std::string_view text, Sure sure) {
    return read<Ohms>(text, ohmScale, sure);
}
Typed<Celsius> parseTemperature(std::string_view text, Sure sure) {
    return read<Celsius>(text, temperatureScale, sure);
}
Typed<Kilopascals> parseVacuum(std::string_view text, Sure sure) {
    return read<Kilopascals>(text, vacuumScale, sure);
}
Typed<Kilopascals> parsePressure(std::string_view text, Sure sure) {
    return read<Kilopascals>(text, pressureScale, sure);
}
Typed<Litres> parseVolume(std::string_view text, Sure sure) {
    return read<Litres>(text, volumeScale, sure);
}
Typed<Kilometres> parseDistance(std::string_view text, Sure sure) {
    questionPoint(text, sure);
    return read<Kilometres>(text, distanceScale, sure);
}
Typed<Volts> parseVolts(std::string_view text, Sure sure) {
    return read<Volts>(text, voltScale, sure);
}
Typed<Amperes> parseAmperes(std::string_view text, Sure sure) {
    return read<Amperes>(text, ampereScale, sure);
}
Typed<Hertz> parseFrequency(std::string_view text, Sure sure) {
    return read<Hertz>(text, hertzScale, sure);
}
Typed<Seconds> parseDuration(std::string_view text, Sure sure) {
    return read<Seconds>(text, secondScale, sure);
}
Typed<MillilitresPerMinute> parseFlow(std::string_view text, Sure sure) {
    const std::string all = lowered(text);
    const std::size_t in = all.find(" in ");
    if (in == std::string::npos)
        return read<MillilitresPerMinute>(text, flowScale, sure);
    const double litres = convert(all.substr(0, in), volumeScale);
    const double seconds = convert(all.substr(in + 4), secondScale);
    if (!(seconds > 0.0))
        unreadable(text, flowScale);
    const double flow = litres * 1000.0 * 60.0 / seconds;
    return {MillilitresPerMinute(flow), std::string(text), question(flow, text, flowScale, sure)};
}
Typed<Millimetres> parseSmallLength(std::string_view text, Sure sure) {
    return read<Millimetres>(text, smallLengthScale, sure);
}
Typed<Millimetres> parseLength(std::string_view text) {
    const double value = convert(withoutFraction(text), lengthScale);
    question(value, text, lengthScale, Sure::ask);
    return {Millimetres(value), std::string(text)};
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

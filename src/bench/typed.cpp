// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/typed.h"

#include "base/errors.h"
#include "base/text.h"
#include "bench/quantity_scales.h"

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

using namespace scales;

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
    if (text.find_first_not_of(" \t") == std::string_view::npos)
        throw UsageError(fmt::format("Nothing was typed where {} belongs. Type it like \"{}\".",
                                     scale.what, scale.example));
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

/// Refuses impossible values and questions very unusual ones. @return whether it is unusual.
bool question(double value, std::string_view text, const Scale& scale, Sure sure) {
    if (!(value >= scale.least && value <= scale.most))
        throw UsageError(
            fmt::format("\"{}\" is {:g} {}, which is impossible: {} lies between {:g} and "
                        "{:g} {}. {}",
                        text, value, scale.unit, scale.what, scale.least, scale.most, scale.unit,
                        scale.advice));
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

/// "45.000 km" means forty-five thousand if a point groups thousands.
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

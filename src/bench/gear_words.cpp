// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/gear_words.h"

#include "base/errors.h"
#include "bench/enum_names.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <sstream>
#include <string_view>

namespace swarfbook {
namespace {

/// What people write for a gear, and the gear.
constexpr std::array<std::pair<std::string_view, std::string_view>, 24> gearWords{
    {{"first", "1"},
     {"second", "2"},
     {"third", "3"},
     {"fourth", "4"},
     {"fifth", "5"},
     {"sixth", "6"},
     {"seventh", "7"},
     {"eighth", "8"},
     {"ninth", "9"},
     {"tenth", "10"},
     {"1st", "1"},
     {"2nd", "2"},
     {"3rd", "3"},
     {"reverse", "R"},
     {"rev", "R"},
     {"neutral", "N"},
     {"park", "P"},
     {"drive", "D"},
     {"every", "all"},
     {"any", "all"},
     {"everything", "all"},
     {"all-gears", "all"},
     {"all-forward", "forward"},
     {"tcc", "converter"}}};

bool allDigits(const std::string& text) {
    return !text.empty() && std::all_of(text.begin(), text.end(),
                                        [](unsigned char c) { return std::isdigit(c) != 0; });
}

} // namespace

std::string gearOf(const std::string& text) {
    std::string gear = wordAsTyped(text);
    if (gear.starts_with("gear-"))
        gear = gear.substr(5);
    for (const auto& [word, meant] : gearWords)
        if (gear == word)
            return std::string(meant);
    if (gear.size() > 2 && gear.ends_with("th"))
        gear.resize(gear.size() - 2);
    if (gear == "all" || gear == "forward" || gear == "converter")
        return gear;
    if (gear.size() == 1)
        gear[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(gear[0])));
    const bool byHand = gear.size() == 2 && gear[0] == 'm' && std::isdigit(gear[1]) != 0;
    if ((allDigits(gear) && gear.size() <= 2 && gear != "0") || gear == "R" || gear == "N" ||
        gear == "P" || gear == "D")
        return gear;
    if (byHand)
        throw UsageError(fmt::format("\"{}\": say the gear by its number and add --manual-range "
                                     "good or bad.",
                                     text));
    throw UsageError(fmt::format("\"{}\" is not a gear. Say 1, 2, ..., R, or all.", text));
}

std::string shiftOf(const std::string& text) {
    std::string shift = wordAsTyped(text);
    for (const std::string_view between : {"-to-", "-->", "->", "\u2192", "\u2013", ">", "/", "to"})
        if (const std::size_t at = shift.find(between); at != std::string::npos && at > 0) {
            shift.replace(at, between.size(), "-");
            break;
        }
    const std::size_t dash = shift.find('-');
    if (dash == std::string::npos || dash == 0 || dash + 1 == shift.size())
        throw UsageError(fmt::format("\"{}\" is not a shift. Say it like 2-3.", text));
    const std::string from = gearOf(shift.substr(0, dash)), to = gearOf(shift.substr(dash + 1));
    if (from == to)
        throw UsageError(fmt::format("\"{}\" is not a shift: both gears are the same.", text));
    return from + "-" + to;
}

std::vector<std::string> gearsOf(const std::string& text) {
    std::string words = text;
    std::replace(words.begin(), words.end(), ',', ' ');
    std::istringstream each(words);
    std::vector<std::string> gears;
    for (std::string gear; each >> gear;)
        gears.push_back(gearOf(gear));
    return gears;
}

std::pair<std::string, std::string> endsOf(const std::string& text) {
    std::string range = text;
    for (const std::string_view between : {"\u2013", " to ", " - "})
        if (const std::size_t at = range.find(between); at != std::string::npos)
            range.replace(at, between.size(), "-");
    const std::size_t unit = range.find_last_of("0123456789") + 1;
    for (const std::string_view about : {"\u00b1", "+/-", "+-"})
        if (const std::size_t at = range.find(about); at != std::string::npos) {
            const auto number = [&](std::size_t from, std::size_t to) {
                return std::stod(range.substr(from, to - from));
            };
            try {
                const double middle = number(0, at), half = number(at + about.size(), unit);
                return {fmt::format("{:g}{}", middle - half, range.substr(unit)),
                        fmt::format("{:g}{}", middle + half, range.substr(unit))};
            } catch (const std::logic_error&) {
                break;
            }
        }
    const std::size_t dash = range.find('-', 1);
    if (dash == std::string::npos)
        throw UsageError(fmt::format("\"{}\" is not a range. Type it like 11-15.", text));
    std::string low = range.substr(0, dash);
    if (low.find_first_not_of("0123456789., ") == std::string::npos)
        low += range.substr(unit);
    return {low, range.substr(dash + 1)};
}

} // namespace swarfbook

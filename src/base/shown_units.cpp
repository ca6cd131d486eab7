// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/shown_units.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

namespace swarfbook {
namespace {

ShownUnits& current() {
    static ShownUnits units;
    return units;
}

// Short names of the months, as glibc's locales have them (en_GB, de_DE, fr_FR, es_ES: abmon).
using Months = std::array<std::string_view, 12>;
constexpr Months english{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                         "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
constexpr Months german{"Jan", "Feb", "M\u00e4r", "Apr", "Mai", "Jun",
                        "Jul", "Aug", "Sep",      "Okt", "Nov", "Dez"};
constexpr Months french{"janv.", "f\u00e9vr.", "mars",  "avril", "mai",  "juin",
                        "juil.", "ao\u00fbt",  "sept.", "oct.",  "nov.", "d\u00e9c."};
constexpr Months spanish{"ene", "feb", "mar", "abr", "may", "jun",
                         "jul", "ago", "sep", "oct", "nov", "dic"};

} // namespace

const std::vector<std::string_view>& dateOrderWords() {
    static const std::vector<std::string_view> words{"year-first", "day-first", "month-first",
                                                     "german",     "french",    "spanish"};
    return words;
}

DateOrder dateOrderOf(std::string_view word) {
    const auto& words = dateOrderWords();
    const auto found = std::find(words.begin(), words.end(), word);
    return found == words.end() ? DateOrder::yearFirst
                                : static_cast<DateOrder>(found - words.begin());
}

const ShownUnits& shownUnits() {
    return current();
}

void showIn(const ShownUnits& units) {
    current() = units;
}

ShownValue inShownUnit(double value, std::string_view unit) {
    const ShownUnits& shown = shownUnits();
    if (unit == "km" && shown.miles)
        return {value / kmPerMile, "mi"};
    if (unit == "C" && shown.fahrenheit)
        return {value * 1.8 + 32.0, "F"};
    if (unit == "l" && shown.quarts)
        return {value / litresPerQuart, "qt"};
    return {value, unit};
}

std::string distanceWords(double km) {
    const ShownValue shown = inShownUnit(km, "km");
    std::string digits = fmt::format("{:.0f}", std::round(shown.value));
    for (std::size_t i = digits.size(); i > 3 && digits[i - 4] != '-';) {
        i -= 3;
        digits.insert(i, 1, ',');
    }
    return fmt::format("{} {}", digits, shown.unit);
}

std::string distanceRange(double lowKm, double highKm) {
    return fmt::format("{:.0f} to {}", inShownUnit(lowKm, "km").value, distanceWords(highKm));
}

std::string dateWords(const std::string& iso) {
    int year = 0;
    unsigned month = 0, day = 0;
    if (iso.size() < 10 || std::sscanf(iso.c_str(), "%4d-%2u-%2u", &year, &month, &day) != 3 ||
        month < 1 || month > english.size())
        return iso;
    switch (shownUnits().dates) {
    case DateOrder::dayFirst:
        return fmt::format("{} {} {}", day, english[month - 1], year);
    case DateOrder::monthFirst:
        return fmt::format("{} {}, {}", english[month - 1], day, year);
    case DateOrder::dayFirstGerman:
        return fmt::format("{}. {} {}", day, german[month - 1], year);
    case DateOrder::dayFirstFrench:
        return fmt::format("{} {} {}", day, french[month - 1], year);
    case DateOrder::dayFirstSpanish:
        return fmt::format("{} {} {}", day, spanish[month - 1], year);
    case DateOrder::yearFirst:
        break;
    }
    return iso.substr(0, 10);
}

} // namespace swarfbook

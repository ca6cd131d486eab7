// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/shown_units.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstdio>

namespace swarfbook {
namespace {

ShownUnits& current() {
    static ShownUnits units;
    return units;
}

constexpr std::array<std::string_view, 12> months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                  "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

} // namespace

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
        digits.insert(i, ",");
    }
    return fmt::format("{} {}", digits, shown.unit);
}

std::string dateWords(const std::string& iso) {
    int year = 0;
    unsigned month = 0, day = 0;
    if (iso.size() < 10 || std::sscanf(iso.c_str(), "%4d-%2u-%2u", &year, &month, &day) != 3 ||
        month < 1 || month > months.size())
        return iso;
    switch (shownUnits().dates) {
    case DateOrder::dayFirst:
        return fmt::format("{} {} {}", day, months[month - 1], year);
    case DateOrder::monthFirst:
        return fmt::format("{} {}, {}", months[month - 1], day, year);
    case DateOrder::yearFirst:
        break;
    }
    return iso.substr(0, 10);
}

} // namespace swarfbook

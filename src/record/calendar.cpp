// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/calendar.h"

#include "base/errors.h"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <array>
#include <charconv>
#include <chrono>
#include <ctime>
#include <optional>

namespace swarfbook {
namespace {

// Common practice, no source: older dates in a workshop's book are slips of the finger.
constexpr std::string_view firstDate = "1980-01-01";

/// The digits of text[from, from + length) as a number; -1 when they are not all digits.
int digits(std::string_view text, std::size_t from, std::size_t length) {
    int value = 0;
    const char* first = text.data() + from;
    const auto [end, error] = std::from_chars(first, first + length, value);
    const bool allDigits = error == std::errc() && end == first + length && *first != '-';
    return allDigits ? value : -1;
}

bool dayExists(std::string_view text) {
    using namespace std::chrono;
    const int y = digits(text, 0, 4);
    const int m = digits(text, 5, 2);
    const int d = digits(text, 8, 2);
    return y >= 0 && m >= 0 && d >= 0 &&
           year_month_day(year(y), month(static_cast<unsigned>(m)), day(static_cast<unsigned>(d)))
               .ok();
}

/// Three whole numbers separated by the same sign; nothing for other text.
std::optional<std::array<int, 3>> threeNumbers(std::string_view text, char between) {
    std::array<int, 3> numbers{};
    std::size_t at = 0;
    for (std::size_t i = 0; i < 3; ++i) {
        const std::size_t end = i < 2 ? text.find(between, at) : text.size();
        if (end == std::string_view::npos || end == at || end - at > 4)
            return std::nullopt;
        numbers[i] = digits(text, at, end - at);
        if (numbers[i] < 0)
            return std::nullopt;
        at = end + 1;
    }
    return numbers;
}

std::string isoDate(int year, int month, int day) {
    return fmt::format("{:04}-{:02}-{:02}", year, month, day);
}

/// A day with its year put first, from "12.05.2025" or "25/12/2025"; other text stays. With points
/// the order is day, month, year. With slashes day or month may come first, so this asks if both
/// could be the month.
std::string spelledOut(std::string_view text) {
    for (const char between : {'-', '/', '.'}) {
        const auto numbers = threeNumbers(text, between);
        if (!numbers)
            continue;
        const auto [first, second, third] = *numbers;
        if (first >= 1000 && second <= 99 && third <= 99)
            return isoDate(first, second, third);
        if (third < 1000 || between == '-')
            break;
        if (between == '.')
            return isoDate(third, second, first);
        if (first > 12 || second > 12 || first == second)
            return first > 12 ? isoDate(third, second, first) : isoDate(third, first, second);
        throw UsageError(fmt::format("\"{}\" can be {} or {}. Write the one that is meant.", text,
                                     isoDate(third, first, second), isoDate(third, second, first)));
    }
    return std::string(text);
}

std::string dayBefore(std::string_view day) {
    using namespace std::chrono;
    const sys_days before =
        sys_days(year_month_day(year(digits(day, 0, 4)),
                                month(static_cast<unsigned>(digits(day, 5, 2))),
                                std::chrono::day(static_cast<unsigned>(digits(day, 8, 2))))) -
        days(1);
    const year_month_day date(before);
    return isoDate(int(date.year()), static_cast<int>(unsigned(date.month())),
                   static_cast<int>(unsigned(date.day())));
}

} // namespace

std::string todayHere() {
    return fmt::format("{:%Y-%m-%d}", fmt::localtime(std::time(nullptr)));
}

std::string nowUtc() {
    return fmt::format("{:%Y-%m-%dT%H:%M:%SZ}", fmt::gmtime(std::time(nullptr)));
}

std::string checkedDate(std::string_view typed, std::string_view today) {
    if (typed == "today")
        return std::string(today);
    if (typed == "yesterday")
        return dayBefore(today);
    const std::string text = spelledOut(typed);
    if (text.size() != 10 || text[4] != '-' || text[7] != '-')
        throw UsageError(fmt::format(
            "\"{}\" is not a date. Write it as year-month-day, such as {}, or say today "
            "or yesterday.",
            typed, today));
    if (!dayExists(text))
        throw UsageError(fmt::format("There is no day {} in the calendar. Write the date as "
                                     "year-month-day, such as {}.",
                                     text, today));
    if (text > today)
        throw UsageError(fmt::format("{} is in the future; today is {}. Give the day it was done.",
                                     text, today));
    if (text < firstDate)
        throw UsageError(
            fmt::format("{} is too long ago for a book that starts in {}. Check the year.", text,
                        firstDate.substr(0, 4)));
    return text;
}

} // namespace swarfbook

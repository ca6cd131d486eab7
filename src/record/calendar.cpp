// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/calendar.h"

#include "base/errors.h"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <charconv>
#include <chrono>
#include <ctime>

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

} // namespace

std::string todayHere() {
    return fmt::format("{:%Y-%m-%d}", fmt::localtime(std::time(nullptr)));
}

std::string nowUtc() {
    return fmt::format("{:%Y-%m-%dT%H:%M:%SZ}", fmt::gmtime(std::time(nullptr)));
}

std::string checkedDate(std::string_view text, std::string_view today) {
    if (text == "today")
        return std::string(today);
    if (text.size() != 10 || text[4] != '-' || text[7] != '-')
        throw UsageError(
            fmt::format("\"{}\" is no date. Write it as year-month-day, such as {}, or say today.",
                        text, today));
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
    return std::string(text);
}

} // namespace swarfbook

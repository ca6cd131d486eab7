// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/photo_date.h"

#include "base/shown_units.h"

#include <fmt/format.h>

#include <chrono>
#include <cstdio>

namespace swarfbook {
namespace {

constexpr long earliestDay = -1, latestDay = 14;

std::optional<std::chrono::sys_days> dayOf(const std::string& iso) {
    int year = 0;
    unsigned month = 0, day = 0;
    if (iso.size() < 10 || std::sscanf(iso.c_str(), "%4d-%2u-%2u", &year, &month, &day) != 3)
        return std::nullopt;
    const std::chrono::year_month_day date{std::chrono::year(year), std::chrono::month(month),
                                           std::chrono::day(day)};
    if (!date.ok())
        return std::nullopt;
    return std::chrono::sys_days(date);
}

} // namespace

std::optional<long> daysOffVisit(const std::string& taken, const std::string& visit) {
    const auto photo = dayOf(taken), job = dayOf(visit);
    if (!photo || !job)
        return std::nullopt;
    const long days = (*photo - *job).count();
    return days < earliestDay || days > latestDay ? std::optional(days) : std::nullopt;
}

std::string dateQuestion(const std::string& taken, const std::string& visit) {
    if (!daysOffVisit(taken, visit))
        return {};
    return fmt::format("The photo says it was taken on {}; the visit is of {}.", dateWords(taken),
                       dateWords(visit));
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/calendar.h"

#include <catch2/catch.hpp>

#include <ctime>
#include <regex>

using namespace swarfbook;
using Catch::Matchers::Contains;

// Source: the Gregorian calendar's leap years as in ISO 8601: divisible by 4, not by 100 unless by
// 400; 30 days has September, April, June and November.
TEST_CASE("days that exist are accepted, days that do not are refused") {
    const std::string today = "2026-06-30";
    for (const std::string day : {"2024-02-29", "2000-02-29", "2025-12-31", "2026-06-30"})
        CHECK(checkedDate(day, today) == day);
    for (const std::string day : {"2025-02-29", "2025-02-30", "2025-04-31", "2025-13-01",
                                  "2025-00-10", "2025-01-00", "2025-09-31"})
        CHECK_THROWS_WITH(checkedDate(day, today), Contains("no day " + day));
}

TEST_CASE("today is accepted, the future and the distant past are not") {
    CHECK(checkedDate("today", "2026-06-30") == "2026-06-30");
    CHECK_THROWS_WITH(checkedDate("2026-07-01", "2026-06-30"),
                      Contains("in the future") && Contains("2026-06-30"));
    CHECK_THROWS_WITH(checkedDate("0202-07-01", "2026-06-30"), Contains("too long ago"));
}

TEST_CASE("dates in another spelling are refused with the right one") {
    for (const std::string text : {"", "14.03.25", "03-14-2025", "20250314", "2025-03-14T10:00",
                                   "tomorrow", "14. March 2025", "14.03.2025."}) {
        CHECK_THROWS_AS(checkedDate(text, "2026-06-30"), UsageError);
        CHECK_THROWS_WITH(checkedDate(text, "2026-06-30"), Contains("2026-06-30"));
    }
    for (const std::string text : {"2025-+3-14", "2025--3-14", "2025- 3-14", "-025-03-14"})
        CHECK_THROWS_AS(checkedDate(text, "2026-06-30"), UsageError);
}

// Day first with points and year first with dashes: DIN 5008. With slashes both orders are usual.
TEST_CASE("dates are understood as people write them, and questioned if two days could be meant") {
    const std::string today = "2026-06-30";
    CHECK(checkedDate("12.05.2025", today) == "2025-05-12");
    CHECK(checkedDate("1.2.2025", today) == "2025-02-01");
    CHECK(checkedDate("2025-3-14", today) == "2025-03-14");
    CHECK(checkedDate("2025/03/14", today) == "2025-03-14");
    CHECK(checkedDate("03/14/2025", today) == "2025-03-14");
    CHECK(checkedDate("14/03/2025", today) == "2025-03-14");
    CHECK(checkedDate("yesterday", today) == "2026-06-29");
    CHECK(checkedDate("yesterday", "2024-03-01") == "2024-02-29");
    CHECK(checkedDate("yesterday", "2025-01-01") == "2024-12-31");
    CHECK_THROWS_WITH(checkedDate("03/04/2025", today),
                      Contains("2025-03-04") && Contains("2025-04-03"));
    CHECK_THROWS_WITH(checkedDate("31.02.2025", today), Contains("no day 2025-02-31"));
    CHECK_THROWS_WITH(checkedDate("12.13.2025", today), Contains("no day 2025-13-12"));
}

TEST_CASE("today and now are those of the C library") {
    const std::time_t before = std::time(nullptr);
    const std::string now = nowUtc();
    const std::time_t after = std::time(nullptr);
    std::tm parts{};
    REQUIRE(strptime(now.c_str(), "%Y-%m-%dT%H:%M:%SZ", &parts) != nullptr);
    CHECK(timegm(&parts) >= before);
    CHECK(timegm(&parts) <= after);
    CHECK(std::regex_match(todayHere(), std::regex("\\d{4}-\\d{2}-\\d{2}")));
}

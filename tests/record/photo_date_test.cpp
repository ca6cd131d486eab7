// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/photo_date.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

// Which days are near enough is common practice, no source.
TEST_CASE("a photo from the days of the job raises no question, one from other months does") {
    CHECK_FALSE(daysOffVisit("2025-06-14T09:34:00", "2025-06-14"));
    CHECK_FALSE(daysOffVisit("2025-06-13T23:50:00", "2025-06-14"));
    CHECK_FALSE(daysOffVisit("2025-06-28T09:34:00", "2025-06-14"));
    CHECK(daysOffVisit("2025-06-29T09:34:00", "2025-06-14") == 15);
    CHECK(daysOffVisit("2025-03-14T10:12:00", "2025-06-14") == -92); // 17 + 30 + 31 + 14 days
    CHECK(daysOffVisit("2024-02-28T10:12:00", "2024-03-01") == -2);  // 2024 is a leap year
    CHECK(dateQuestion("2025-03-14T10:12:00", "2025-06-14") ==
          "The photo says it was taken on 2025-03-14; the visit is of 2025-06-14.");
}

TEST_CASE("a photo without a date, or with one that cannot be read, raises no question") {
    for (const char* taken : {"", "0000-00-00T00:00:00", "2025-02-30T10:00:00", "long ago"})
        CHECK(dateQuestion(taken, "2025-06-14").empty());
}

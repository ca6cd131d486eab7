// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

namespace swarfbook {

/// Today's date where the program runs, "YYYY-MM-DD".
std::string todayHere();

/// This moment, "YYYY-MM-DDThh:mm:ssZ" (UTC).
std::string nowUtc();

/// A day of the calendar as the book writes it.
///
/// @param typed  "YYYY-MM-DD" (ISO 8601), "2025/3/14", "14.03.2025", "03/14/2025" if only one of
///               its numbers can be the month, "today" or "yesterday".
/// @param today  the last day that is not in the future, "YYYY-MM-DD".
/// @return the date. Throws UsageError for another spelling, one that could mean two days, a day
/// that does not exist, and a day before 1980 or after today.
/// Checked: tests/record/calendar_test.cpp.
std::string checkedDate(std::string_view typed, std::string_view today);

} // namespace swarfbook

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
/// @param text   "YYYY-MM-DD" (ISO 8601), or "today".
/// @param today  the last day that is not in the future, "YYYY-MM-DD".
/// @return the date. Throws UsageError: another spelling, a day that does not exist, a day before
///         1980 or after today.
/// Checked: tests/record/calendar_test.cpp.
std::string checkedDate(std::string_view text, std::string_view today);

} // namespace swarfbook

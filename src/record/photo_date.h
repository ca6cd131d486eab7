// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>

namespace swarfbook {

/// Difference between a photo's own date and its visit's date, if it is large enough to ask about.
///
/// @param taken  as the camera recorded it, "YYYY-MM-DDThh:mm:ss"; "" where it did not
/// @param visit  the visit's date, "YYYY-MM-DD"
/// @return days from the visit to the photo, negative for a photo taken before it; nothing if the
/// photo was taken between the day before the visit and two weeks after it (a job takes days, a
/// clock may be in another time zone; our own limits), or if either date is not known.
/// Checked: tests/record/photo_date_test.cpp.
std::optional<long> daysOffVisit(const std::string& taken, const std::string& visit);

/// "The photo says it was taken on 2025-03-14; the visit is of 2025-06-14.", "" if there is nothing
/// to ask.
std::string dateQuestion(const std::string& taken, const std::string& visit);

} // namespace swarfbook

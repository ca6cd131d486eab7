// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>

namespace swarfbook {

/// How far a photo's own date lies from that of its visit, where that is to be asked about.
///
/// @param taken  as the camera recorded it, "YYYY-MM-DDThh:mm:ss"; "" where it did not
/// @param visit  the visit's date, "YYYY-MM-DD"
/// @return days from the visit to the photo, negative for a photo taken before it; nothing where
/// the photo was taken between the day before the visit and two weeks after it (a job takes days, a
/// clock may be of another time zone; our own limits), or where either date is not known.
/// Checked: tests/record/photo_date_test.cpp.
std::optional<long> daysOffVisit(const std::string& taken, const std::string& visit);

/// "The photo says it was taken on 2025-03-14; the visit is of 2025-06-14.", "" where there is
/// nothing to ask.
std::string dateQuestion(const std::string& taken, const std::string& visit);

} // namespace swarfbook

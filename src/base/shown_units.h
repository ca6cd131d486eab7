// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>
#include <vector>

/// The units for distances, temperatures and volumes and the order of dates that people are shown.
/// The whole program has one, like a locale; opening the book sets it from the book's settings.
/// Stored values, typed values and JSON do not depend on it. Checked:
/// tests/base/shown_units_test.cpp.
namespace swarfbook {

enum class DateOrder {
    yearFirst,       ///< 2025-06-14, as ISO 8601 writes it
    dayFirst,        ///< 14 Jun 2025
    monthFirst,      ///< Jun 14, 2025
    dayFirstGerman,  ///< 14. Jun 2025
    dayFirstFrench,  ///< 14 juin 2025
    dayFirstSpanish, ///< 14 jun 2025
};
/// The words by which the settings name each, in the order of DateOrder: "year-first", ...,
/// "german", "french", "spanish".
const std::vector<std::string_view>& dateOrderWords();
/// The inverse; gives yearFirst for any other word.
DateOrder dateOrderOf(std::string_view word);

struct ShownUnits {
    bool miles = false;      ///< else kilometres
    bool fahrenheit = false; ///< else degrees Celsius
    bool quarts = false;     ///< US quarts, else litres
    DateOrder dates = DateOrder::yearFirst;
};

inline constexpr double kmPerMile = 1.609344;         ///< international mile
inline constexpr double litresPerQuart = 0.946352946; ///< US liquid quart

const ShownUnits& shownUnits();
void showIn(const ShownUnits& units);

/// A number with the name of its unit, such as "mi" or "F".
struct ShownValue {
    double value = 0.0;
    std::string_view unit;
};
/// Converts a value from the unit that the program keeps ("km", "C", "l"; any other stays as it is)
/// to the unit that is shown.
ShownValue inShownUnit(double value, std::string_view unit);

/// "128,000 km", or "79,535 mi": rounded to whole ones.
std::string distanceWords(double km);
/// "50 to 150 km", or "31 to 93 mi".
std::string distanceRange(double lowKm, double highKm);
/// The day of "2025-06-14" or "2025-06-14T09:34:00Z" as days are shown. Any other text comes
/// back unchanged.
std::string dateWords(const std::string& iso);

} // namespace swarfbook

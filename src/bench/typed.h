// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"

#include <string>
#include <string_view>

namespace swarfbook {

using Ohms = Quantity<struct OhmsTag>;
using Celsius = Quantity<struct CelsiusTag>;
using Kilopascals = Quantity<struct KilopascalsTag>;
using Litres = Quantity<struct LitresTag>;
using Volts = Quantity<struct VoltsTag>;
using Amperes = Quantity<struct AmperesTag>;
using Hertz = Quantity<struct HertzTag>;
using Seconds = Quantity<struct SecondsTag>;
using MillilitresPerMinute = Quantity<struct MillilitresPerMinuteTag>;

inline constexpr double kpaPerInHg = 3.386389; ///< conventional value, mercury at 0 C

/// A value as the technician wrote it, and the converted value. Both are kept.
template <class Unit> struct Typed {
    Unit value{};
    std::string typed; ///< "12 inHg", just as written
    bool sure = false; ///< unusual, but confirmed when it was questioned
};

/// Whether an unusual value is questioned, or was questioned and is meant.
enum class Sure { ask, meant };

/// Readers of values as people write them; spaces, a decimal comma, "k" or "m" in front of a unit
/// and fractions ("1 1/2 qt") are understood. Each throws UsageError for text that cannot be read,
/// for an impossible value (-5 km, 45 inHg) and, unless `sure`, for a very unusual one (12 kohm for
/// a coil, 900 C). The error says what to check and how to confirm the value. Conversions: 1 inHg =
/// 3.386389 kPa, 1 psi = 6.894757 kPa, 1 mile = 1.609344 km, 1 US quart = 0.946353 l.
/// Checked: tests/bench/typed_test.cpp.
Typed<Ohms> parseOhms(std::string_view text, Sure sure = Sure::ask);            ///< "0.0126 kohm"
Typed<Celsius> parseTemperature(std::string_view text, Sure sure = Sure::ask);  ///< "80C", "176 F"
Typed<Kilopascals> parseVacuum(std::string_view text, Sure sure = Sure::ask);   ///< "12inHg"
Typed<Kilopascals> parsePressure(std::string_view text, Sure sure = Sure::ask); ///< "60 psi"
Typed<Litres> parseVolume(std::string_view text, Sure sure = Sure::ask);        ///< "4.4 qt"
Typed<Kilometres> parseDistance(std::string_view text, Sure sure = Sure::ask);  ///< "28,000 miles"
Typed<Volts> parseVolts(std::string_view text, Sure sure = Sure::ask);          ///< "7200 mV"
Typed<Amperes> parseAmperes(std::string_view text, Sure sure = Sure::ask);      ///< "900 mA"
Typed<Hertz> parseFrequency(std::string_view text, Sure sure = Sure::ask);      ///< "1 kHz"
Typed<Seconds> parseDuration(std::string_view text, Sure sure = Sure::ask);     ///< "2 min"
/// "12 ml/min", "0.1 l/min", "20 ml in 30 s"
Typed<MillilitresPerMinute> parseFlow(std::string_view text, Sure sure = Sure::ask);
/// The longest side of a piece, or the play of a shaft: "2mm", "0.02 in", "18 thou"
Typed<Millimetres> parseSmallLength(std::string_view text, Sure sure = Sure::ask);

/// "2.00mm", "0,5 mm", "0.125 in", "5/64in", "1 1/4\"", "20 thou", "500 um"; 0.02 to 100 mm. 1 inch
/// = 25.4 mm.
Typed<Millimetres> parseLength(std::string_view text);
/// How finely a length was typed: half a step of its last digit ("2.00mm": 0.005 mm); nothing for a
/// fraction of an inch, since it is a nominal size.
Millimetres halfLastDigit(const Typed<Millimetres>& length);

} // namespace swarfbook

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

/// A value as the technician wrote it, and what it converts to. Both are kept.
template <class Unit> struct Typed {
    Unit value{};
    std::string typed; ///< "12 inHg", just as written
};

/// Readers of values as people write them; spaces, a decimal comma and "k" or "m" in front of a
/// unit are understood. Each throws UsageError for what cannot be read and for what cannot be true
/// of a transmission at the bench (12 kohm for a coil, 900 C), saying what to check or to type.
/// Conversions: 1 inHg = 3.386389 kPa, 1 psi = 6.894757 kPa, 1 mile = 1.609344 km,
/// 1 US quart = 0.946353 l.
/// Checked: tests/bench/typed_test.cpp.
Typed<Ohms> parseOhms(std::string_view text);            ///< "12.6", "12.6 ohm", "0.0126 kohm"
Typed<Celsius> parseTemperature(std::string_view text);  ///< "80C", "176 F"; -40 to 200 C
Typed<Kilopascals> parseVacuum(std::string_view text);   ///< "12inHg", "40 kPa"; 0 to 102 kPa
Typed<Kilopascals> parsePressure(std::string_view text); ///< "60 psi", "4 bar"; 0 to 4000 kPa
Typed<Litres> parseVolume(std::string_view text);        ///< "4.2l", "4.4 qt", "800 ml"
Typed<Kilometres> parseDistance(std::string_view text);  ///< "45000km", "28,000 miles"
Typed<Volts> parseVolts(std::string_view text);          ///< "7.2V", "7200 mV"; 0 to 60 V
Typed<Amperes> parseAmperes(std::string_view text);      ///< "0.9A", "900 mA"; 0 to 10 A
Typed<Hertz> parseFrequency(std::string_view text);      ///< "200Hz", "1 kHz"; up to 20 kHz
Typed<Seconds> parseDuration(std::string_view text);     ///< "30s", "2 min"; up to 1 h

/// "2.00mm", "0,5 mm", "0.125 in", "5/64in", "1 1/4\"", "20 thou", "500 um"; 0.02 to 100 mm. 1 inch
/// = 25.4 mm.
Typed<Millimetres> parseLength(std::string_view text);
/// How finely a length was typed: half a step of its last digit ("2.00mm": 0.005 mm); of a fraction
/// of an inch nothing, since it is a nominal size.
Millimetres halfLastDigit(const Typed<Millimetres>& length);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/field.h"
#include "bench/typed.h"

/// How each unit is read and shown. Specialised for every unit that an observation can hold.
namespace swarfbook {

template <class Unit> struct QuantityWords; ///< `name` of the unit, `digits` shown, `read`

template <> struct QuantityWords<Ohms> {
    static constexpr std::string_view name = "ohm";
    static constexpr int digits = 1;
    static Typed<Ohms> read(std::string_view text, Sure sure) { return parseOhms(text, sure); }
};
template <> struct QuantityWords<Celsius> {
    static constexpr std::string_view name = "C";
    static constexpr int digits = 0;
    static Typed<Celsius> read(std::string_view text, Sure sure) {
        return parseTemperature(text, sure);
    }
};
template <> struct QuantityWords<Kilopascals> {
    static constexpr std::string_view name = "kPa";
    static constexpr int digits = 0;
    static Typed<Kilopascals> read(std::string_view text, Sure sure) {
        return parsePressure(text, sure);
    }
};
template <> struct QuantityWords<Litres> {
    static constexpr std::string_view name = "l";
    static constexpr int digits = 2;
    static Typed<Litres> read(std::string_view text, Sure sure) { return parseVolume(text, sure); }
};
template <> struct QuantityWords<Kilometres> {
    static constexpr std::string_view name = "km";
    static constexpr int digits = 0;
    static Typed<Kilometres> read(std::string_view text, Sure sure) {
        return parseDistance(text, sure);
    }
};
template <> struct QuantityWords<Volts> {
    static constexpr std::string_view name = "V";
    static constexpr int digits = 1;
    static Typed<Volts> read(std::string_view text, Sure sure) { return parseVolts(text, sure); }
};
template <> struct QuantityWords<Amperes> {
    static constexpr std::string_view name = "A";
    static constexpr int digits = 2;
    static Typed<Amperes> read(std::string_view text, Sure sure) {
        return parseAmperes(text, sure);
    }
};
template <> struct QuantityWords<Hertz> {
    static constexpr std::string_view name = "Hz";
    static constexpr int digits = 0;
    static Typed<Hertz> read(std::string_view text, Sure sure) {
        return parseFrequency(text, sure);
    }
};
template <> struct QuantityWords<Seconds> {
    static constexpr std::string_view name = "s";
    static constexpr int digits = 0;
    static Typed<Seconds> read(std::string_view text, Sure sure) {
        return parseDuration(text, sure);
    }
};
template <> struct QuantityWords<MillilitresPerMinute> {
    static constexpr std::string_view name = "ml/min";
    static constexpr int digits = 0;
    static Typed<MillilitresPerMinute> read(std::string_view text, Sure sure) {
        return parseFlow(text, sure);
    }
};
template <> struct QuantityWords<Millimetres> {
    static constexpr std::string_view name = "mm";
    static constexpr int digits = 2;
    static Typed<Millimetres> read(std::string_view text, Sure sure) {
        return parseSmallLength(text, sure);
    }
};

} // namespace swarfbook

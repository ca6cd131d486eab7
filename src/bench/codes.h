// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/observation_words.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace swarfbook {

/// What a trouble code is evidence for. The generic code numbers are those of SAE J2012; the words
/// are ours.
enum class CodeFamily {
    pointer,     ///< asks to read other codes
    input,       ///< a sensor or switch signal
    ratio,       ///< speeds do not fit a gear
    electrical,  ///< the controller saw wrong volts or current
    performance, ///< the current is right, the result is wrong
    either,      ///< a solenoid's general code: electrical or performance
    shift,       ///< a shift went wrong
    slip,        ///< something slips, a shift is slow, or more than one gear is held
    pressure,    ///< pressure implausible, low, high
    supply,      ///< system voltage
    engine,      ///< the engine's own
    notListed    ///< not in our list; the maker's text decides
};
/// "pointer", "input", "ratio", ...
std::string_view codeFamilyName(CodeFamily family);

/// A code and what it means.
struct TroubleCode {
    std::string text; ///< "P0733"
    CodeFamily family = CodeFamily::notListed;
    std::string gear;     ///< ratio: "3", "R"; "" when not named
    std::string shift;    ///< "2-3"
    std::string solenoid; ///< letter, or "timing"; not a fixed part, as the mapping differs from
                          ///< unit to unit
    bool pressureSolenoid = false; ///< the letter counts pressure solenoids, not shift solenoids
    bool converter = false;        ///< concerns the converter clutch
    bool intermittent = false;
    std::optional<OutsideItem> sensor{}; ///< input: the source of the signal
    std::string meaning;                 ///< in our words
};

/// Reads a code. Throws UsageError unless it has the form of one ("P" or "U", four digits). Source
/// of the numbers: SAE J2012 as widely republished; our table says which codes it does not list.
/// Checked: tests/bench/codes_test.cpp.
TroubleCode parseCode(std::string_view given);

/// "p0733, P0735" as codes; an empty list for "none" and "none stored". UsageError as parseCode.
std::vector<std::string> codesTyped(const std::string& text);

} // namespace swarfbook

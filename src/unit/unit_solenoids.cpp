// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "unit/unit_solenoids.h"

#include "base/text.h"
#include "bench/part_names.h"

#include <fmt/format.h>

namespace swarfbook {
namespace {

using Solenoid = ApplicationChart::Solenoid;

const Solenoid* byCode(const ApplicationChart& chart, const TroubleCode& code) {
    const std::string wanted =
        fmt::format("{} {}", code.pressureSolenoid ? "pressure" : "shift", code.solenoid);
    for (const Solenoid& s : chart.solenoids)
        if (!s.code.empty() && lowered(s.code) == lowered(wanted))
            return &s;
    return nullptr;
}

const Solenoid* byLetter(const ApplicationChart& chart, const std::string& letter) {
    for (const Solenoid& s : chart.solenoids)
        if (s.code.empty() && meansLetter(s.name, letter))
            return &s;
    return nullptr;
}

/// The one solenoid that gears share and that is not the converter's; nullptr for none or several.
const Solenoid* ofLinePressure(const ApplicationChart& chart) {
    const Solenoid* found = nullptr;
    for (const Solenoid& s : chart.solenoids) {
        if (!s.common || servesConverter(s) || !s.code.empty())
            continue;
        if (found != nullptr)
            return nullptr;
        found = &s;
    }
    return found;
}

} // namespace

const Solenoid* solenoidOfCode(const ApplicationChart& chart, const TroubleCode& code) {
    if (code.solenoid.empty())
        return nullptr;
    if (const Solenoid* said = byCode(chart, code))
        return said;
    const Solenoid* lettered = byLetter(chart, code.solenoid);
    const bool firstPressure = code.pressureSolenoid && lowered(code.solenoid) == "a";
    const bool shiftsGears = lettered == nullptr || lettered->type == SolenoidKind::onOff;
    if (firstPressure && shiftsGears)
        if (const Solenoid* line = ofLinePressure(chart))
            return line;
    return lettered;
}

const Solenoid* solenoidMeant(const ApplicationChart& chart, const std::string& typed) {
    for (const Solenoid& s : chart.solenoids)
        if (lowered(s.name) == lowered(typed))
            return &s;
    for (const Solenoid& s : chart.solenoids)
        if (meansLetter(typed, s.name))
            return &s;
    return nullptr;
}

} // namespace swarfbook

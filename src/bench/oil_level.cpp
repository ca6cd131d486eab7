// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/oil_level.h"

#include "base/shown_units.h"

#include <fmt/format.h>

#include <cmath>

namespace swarfbook {
namespace {

/// The edge of the window that the fluid still has to reach.
Celsius nearEdge(const LevelCheck& check) {
    return levelTime(check) == LevelTime::tooCold ? check.windowLow->value
                                                  : check.windowHigh->value;
}

bool outside(LevelTime time) {
    return time == LevelTime::tooCold || time == LevelTime::tooHot;
}

} // namespace

LevelTime levelTime(const LevelCheck& check) {
    if (!check.at)
        return LevelTime::temperatureUnknown;
    if (!check.windowLow || !check.windowHigh)
        return LevelTime::windowUnknown;
    if (check.at->value < check.windowLow->value)
        return LevelTime::tooCold;
    return check.at->value > check.windowHigh->value ? LevelTime::tooHot : LevelTime::valid;
}

std::optional<Litres> levelError(const LevelCheck& check) {
    if (!outside(levelTime(check)) || !check.total)
        return std::nullopt;
    const Litres total = check.total->value;
    return oilAt(total, check.at->value, nearEdge(check)) - total;
}

std::string levelSentence(const LevelCheck& check) {
    switch (levelTime(check)) {
    case LevelTime::temperatureUnknown:
        return "without the fluid's temperature the level is not settled: read it and recheck";
    case LevelTime::windowUnknown:
        return "the maker's temperature window is not given: recheck at the temperature the maker "
               "states";
    case LevelTime::valid:
        return "read inside the window";
    case LevelTime::tooCold:
    case LevelTime::tooHot:
        break;
    }
    const bool cold = levelTime(check) == LevelTime::tooCold;
    const ShownValue edge = inShownUnit(nearEdge(check).value(), "C");
    std::string text = fmt::format("{}: wait until it has {} to {:.0f} {} and recheck",
                                   cold ? "too cold" : "too hot", cold ? "warmed" : "cooled",
                                   edge.value, edge.unit);
    if (const auto error = levelError(check)) {
        const ShownValue off = inShownUnit(std::abs(error->value()), "l");
        text += fmt::format("; set right now, it would be about {:.2f} {} too {} there", off.value,
                            off.unit, error->value() > 0.0 ? "high" : "low");
    } else
        text += fmt::format("; each 10 C are about {:.2f} l in 10 l", 10.0 * 10.0 * oilPerKelvin);
    return text;
}

} // namespace swarfbook

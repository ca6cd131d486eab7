// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/solenoid_faults.h"

#include "bench/copper.h"

#include <fmt/format.h>

#include <cmath>

namespace swarfbook {

std::optional<Ohms> coldAt20(const SolenoidReadings& s) {
    if (s.resistance && s.at)
        return resistanceAt20(s.resistance->value, s.at->value);
    return std::nullopt;
}

std::optional<Ohms> hotAt20(const SolenoidReadings& s) {
    if (s.hotResistance && s.hotAt)
        return resistanceAt20(s.hotResistance->value, s.hotAt->value);
    return std::nullopt;
}

int sideOfBand(const SolenoidReadings& s, Ohms at20) {
    if (s.bandLow && at20 < s.bandLow->value)
        return -1;
    return s.bandHigh && at20 > s.bandHigh->value ? 1 : 0;
}

std::string coilFault(const SolenoidReadings& s, const SolenoidLimits& limits, bool bandsBelieved) {
    if (s.openCircuit == true)
        return "its coil is open";
    if (s.shorted == true || (s.resistance && s.resistance->value < limits.shortBelow))
        return "its coil is shorted";
    if (s.hotOpen == true)
        return s.hotAt ? fmt::format("its coil opens at {:.0f} C", s.hotAt->value.value())
                       : std::string("its coil opens when hot");
    const auto at20 = coldAt20(s);
    if (bandsBelieved && at20 && sideOfBand(s, *at20) != 0)
        return fmt::format("its coil has {:.1f} ohm at 20 C, outside the maker's {:.1f} to {:.1f}",
                           at20->value(), s.bandLow ? s.bandLow->value.value() : 0.0,
                           s.bandHigh ? s.bandHigh->value.value() : INFINITY);
    return {};
}

std::string responseFault(const SolenoidReadings& s, const SiblingLeaks& siblings,
                          const SolenoidLimits& limits) {
    if (siblings.leaksMore(s))
        return "it leaks where its siblings seal";
    if (s.siblings == AgainstSiblings::worse)
        return "it tests worse than its identical siblings";
    if (s.command == Movement::stuck)
        return "it does not move when commanded";
    if (s.hotCommand == Movement::stuck || s.hotCommand == Movement::weak)
        return "it sticks when hot";
    if (s.command == Movement::weak)
        return "it moves weakly";
    if (s.pullIn && s.pullIn->value > limits.pullInHigh)
        return fmt::format("it pulls in only at {:.1f} V", s.pullIn->value.value());
    if (s.dropOut && s.dropOut->value < limits.dropOutLow)
        return fmt::format("it lets go only at {:.1f} V", s.dropOut->value.value());
    return {};
}

bool sealsSince(const SolenoidReadings& before, const SolenoidReadings& now) {
    const auto since = [&](LeakSeen SolenoidReadings::*test) {
        return before.*test == LeakSeen::leaks && now.*test == LeakSeen::seals;
    };
    return since(&SolenoidReadings::leakOff) || since(&SolenoidReadings::leakOn);
}

} // namespace swarfbook

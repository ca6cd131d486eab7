// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/stuck_pattern.h"

#include <algorithm>
#include <optional>

namespace swarfbook {
namespace {

using Pattern = std::map<std::string, SolenoidCommand>;

/// On or off as the valve sees it; nothing where it does not matter.
std::optional<bool> asSwitch(SolenoidCommand state) {
    if (state == SolenoidCommand::any)
        return std::nullopt;
    return state != SolenoidCommand::off;
}

bool sameRange(const ApplicationChart::Gear& commanded, const ApplicationChart::Gear& row) {
    if (commanded.manualRange != row.manualRange || !drives(row))
        return false;
    return (commanded.name == "R") == (row.name == "R");
}

bool isObserved(const std::vector<CommandedObtained>& observed, const std::string& gear) {
    return std::any_of(observed.begin(), observed.end(),
                       [&](const CommandedObtained& o) { return o.commanded == gear; });
}

bool gives(const std::vector<std::string>& rows, const std::string& obtained) {
    return obtained.empty() ? rows.empty()
                            : std::find(rows.begin(), rows.end(), obtained) != rows.end();
}

/// Every gear that was not observed and that this fault turns into another gear or none.
std::vector<CommandedObtained> predictions(const ApplicationChart& chart, const StuckMatch& match,
                                           const std::vector<CommandedObtained>& observed) {
    std::vector<CommandedObtained> all;
    for (const ApplicationChart::Gear& gear : chart.gears) {
        if (gear.manualRange || !drives(gear) || isObserved(observed, gear.name))
            continue;
        const auto rows = obtainedWhenStuck(chart, gear.name, match.solenoid, match.on);
        if (!gives(rows, gear.name))
            all.push_back({gear.name, rows.empty() ? "" : rows.front()});
    }
    return all;
}

} // namespace

std::vector<std::string> rowsLike(const ApplicationChart& chart, const Pattern& states,
                                  const std::string& commanded) {
    std::vector<std::string> names;
    const ApplicationChart::Gear* asked = chart.gear(commanded);
    for (const ApplicationChart::Gear& row : chart.gears) {
        if (asked == nullptr || !sameRange(*asked, row))
            continue;
        const bool fits =
            std::all_of(chart.solenoids.begin(), chart.solenoids.end(), [&](const auto& s) {
                const auto found = states.find(s.name);
                const auto here = found == states.end() ? std::nullopt : asSwitch(found->second);
                const auto there = asSwitch(stateIn(row, s.name));
                return s.common || !here || !there || *here == *there;
            });
        if (fits)
            names.push_back(row.name);
    }
    return names;
}

std::vector<std::string> obtainedWhenStuck(const ApplicationChart& chart,
                                           const std::string& commanded,
                                           const std::string& solenoid, bool on) {
    const ApplicationChart::Gear* gear = chart.gear(commanded);
    if (gear == nullptr)
        return {};
    Pattern states = gear->solenoids;
    states[solenoid] = on ? SolenoidCommand::on : SolenoidCommand::off;
    return rowsLike(chart, states, commanded);
}

std::vector<StuckMatch> stuckMatches(const ApplicationChart& chart,
                                     const std::vector<CommandedObtained>& observed) {
    std::vector<StuckMatch> matches;
    const bool anyWrong = std::any_of(observed.begin(), observed.end(),
                                      [](const auto& o) { return o.commanded != o.obtained; });
    if (!anyWrong)
        return matches;
    for (const ApplicationChart::Solenoid& s : chart.solenoids)
        for (const bool on : {false, true}) {
            const bool all = std::all_of(observed.begin(), observed.end(), [&](const auto& o) {
                return gives(obtainedWhenStuck(chart, o.commanded, s.name, on), o.obtained);
            });
            if (s.common || !all)
                continue;
            StuckMatch match{s.name, on, {}};
            match.predicts = predictions(chart, match, observed);
            matches.push_back(std::move(match));
        }
    return matches;
}

bool lostSupplyMatches(const ApplicationChart& chart,
                       const std::vector<CommandedObtained>& observed) {
    Pattern removed = chart.currentRemoved;
    if (removed.empty() || observed.empty())
        return false;
    return std::all_of(observed.begin(), observed.end(), [&](const CommandedObtained& o) {
        return gives(rowsLike(chart, removed, o.commanded), o.obtained);
    });
}

} // namespace swarfbook

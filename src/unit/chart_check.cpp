// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "unit/chart_check.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace swarfbook {
namespace {

using Sentences = std::vector<std::string>;

template <class Part>
void findDoubles(const std::vector<Part>& parts, std::string_view what, Sentences& wrong) {
    for (std::size_t i = 0; i < parts.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
            if (parts[i].name == parts[j].name)
                wrong.push_back(fmt::format("The {} {} is there twice.", what, parts[i].name));
}

void checkGear(const ApplicationChart& chart, const ApplicationChart::Gear& gear,
               Sentences& wrong) {
    int holding = 0;
    for (const auto& [name, state] : gear.elements) {
        holding += state == Applied::yes;
        if (chart.element(name) == nullptr)
            wrong.push_back(fmt::format("Gear {} names the element {}, which is not declared.",
                                        gear.name, name));
    }
    for (const auto& entry : gear.solenoids)
        if (chart.solenoid(entry.first) == nullptr)
            wrong.push_back(fmt::format("Gear {} names the solenoid {}, which is not declared.",
                                        gear.name, entry.first));
    if (drives(gear) && holding == 0)
        wrong.push_back(fmt::format("Nothing holds gear {}.", gear.name));
    if (gear.manualRange &&
        std::none_of(chart.gears.begin(), chart.gears.end(), [&](const auto& other) {
            return !other.manualRange && chart.manualRangeOf(other.name) != nullptr &&
                   gear.name.starts_with(other.name);
        }))
        wrong.push_back(fmt::format("The manual range {} does not start with the name of a gear; "
                                    "name it after its gear, such as \"1 by hand\".",
                                    gear.name));
}

bool alikeInElements(const ApplicationChart& chart, const ApplicationChart::Gear& a,
                     const ApplicationChart::Gear& b) {
    bool any = false;
    for (const ApplicationChart::Element& e : chart.elements) {
        const Applied state = stateIn(chart, a, e);
        any = any || state == Applied::yes;
        if (state != stateIn(chart, b, e))
            return false;
    }
    return any;
}

bool alikeInSolenoids(const ApplicationChart& chart, const ApplicationChart::Gear& a,
                      const ApplicationChart::Gear& b) {
    bool any = false;
    for (const ApplicationChart::Solenoid& s : chart.solenoids) {
        if (s.common)
            continue;
        any = true;
        if (stateIn(a, s.name) != stateIn(b, s.name))
            return false;
    }
    return any;
}

/// P, N and R share patterns with forward gears in many units; the selector's valve separates them.
bool forwardByItself(const ApplicationChart::Gear& gear) {
    return drives(gear) && gear.name != "R" && !gear.manualRange;
}

void findGearsAlike(const ApplicationChart& chart, Sentences& wrong) {
    for (std::size_t i = 0; i < chart.gears.size(); ++i)
        for (std::size_t j = 0; j < i; ++j) {
            const auto &a = chart.gears[j], &b = chart.gears[i];
            if (a.manualRange == b.manualRange && drives(a) && drives(b) &&
                alikeInElements(chart, a, b))
                wrong.push_back(
                    fmt::format("Gears {} and {} are held by the same elements.", a.name, b.name));
            if (forwardByItself(a) && forwardByItself(b) && alikeInSolenoids(chart, a, b))
                wrong.push_back(fmt::format(
                    "Gears {} and {} have the same states of the solenoids.", a.name, b.name));
        }
}

void checkElements(const ApplicationChart& chart, Sentences& wrong) {
    for (const ApplicationChart::Element& e : chart.elements)
        if (std::none_of(chart.gears.begin(), chart.gears.end(),
                         [&](const auto& gear) { return stateIn(chart, gear, e) != Applied::no; }))
            wrong.push_back(fmt::format("Element {} is applied in no gear.", e.name));
}

void checkSolenoids(const ApplicationChart& chart, Sentences& wrong) {
    for (const ApplicationChart::Solenoid& s : chart.solenoids) {
        if (s.feeds.empty() && !s.common)
            wrong.push_back(fmt::format("Solenoid {} feeds nothing.", s.name));
        for (const ApplicationChart::Feed& feed : s.feeds)
            if (chart.element(feed.element) == nullptr)
                wrong.push_back(fmt::format("Solenoid {} feeds {}, which is not declared.", s.name,
                                            feed.element));
        if (s.bandLow && s.bandHigh && *s.bandHigh < *s.bandLow)
            wrong.push_back(
                fmt::format("The resistance band of solenoid {} is upside down.", s.name));
    }
    for (const auto& entry : chart.currentRemoved)
        if (chart.solenoid(entry.first) == nullptr)
            wrong.push_back(fmt::format("The pattern with current removed names the solenoid {}, "
                                        "which is not declared.",
                                        entry.first));
}

void checkBores(const ApplicationChart& chart, Sentences& wrong) {
    const auto unknown = [&](const ApplicationChart::Bore& bore, std::string_view what,
                             const std::string& name) {
        wrong.push_back(
            fmt::format("Bore {} names the {} {}, which is not declared.", bore.name, what, name));
    };
    for (const ApplicationChart::Bore& bore : chart.bores) {
        for (const std::string& gear : bore.gears)
            if (chart.gear(gear) == nullptr)
                unknown(bore, "gear", gear);
        for (const std::string& element : bore.feeds)
            if (chart.element(element) == nullptr)
                unknown(bore, "element", element);
        if (!bore.solenoid.empty() && chart.solenoid(bore.solenoid) == nullptr)
            unknown(bore, "solenoid", bore.solenoid);
        if (bore.gears.empty() && bore.feeds.empty() && bore.solenoid.empty())
            wrong.push_back(
                fmt::format("Bore {} belongs to no gear, element or solenoid.", bore.name));
    }
}

bool fits(SolenoidCommand pattern, SolenoidCommand row) {
    const auto asSwitch = [](SolenoidCommand c) {
        return c == SolenoidCommand::modulated ? SolenoidCommand::on : c;
    };
    return pattern == SolenoidCommand::any || row == SolenoidCommand::any ||
           asSwitch(pattern) == asSwitch(row);
}

void unlikeSiblings(const ApplicationChart& chart, Sentences& remarks) {
    for (std::size_t i = 0; i < chart.solenoids.size(); ++i)
        for (std::size_t j = 0; j < i; ++j) {
            const auto &a = chart.solenoids[j], &b = chart.solenoids[i];
            const bool unlike =
                a.type != b.type || a.bandLow != b.bandLow || a.bandHigh != b.bandHigh;
            if (!a.siblings.empty() && a.siblings == b.siblings && unlike)
                remarks.push_back(fmt::format("Solenoids {} and {} are called identical, but their "
                                              "kinds or bands differ.",
                                              a.name, b.name));
        }
}

} // namespace

std::vector<std::string> inconsistencies(const ApplicationChart& chart) {
    Sentences wrong;
    if (chart.gears.empty())
        wrong.emplace_back("The chart has no gears.");
    findDoubles(chart.elements, "element", wrong);
    findDoubles(chart.solenoids, "solenoid", wrong);
    findDoubles(chart.gears, "gear", wrong);
    findDoubles(chart.bores, "bore", wrong);
    for (const ApplicationChart::Gear& gear : chart.gears)
        checkGear(chart, gear, wrong);
    findGearsAlike(chart, wrong);
    checkElements(chart, wrong);
    checkSolenoids(chart, wrong);
    checkBores(chart, wrong);
    if (chart.levelFrom && chart.levelTo && *chart.levelTo < *chart.levelFrom)
        wrong.emplace_back("The temperature window of the level is upside down.");
    if (chart.fluidTotal && chart.fluidPanService && *chart.fluidTotal < *chart.fluidPanService)
        wrong.emplace_back("A pan service takes more fluid than the whole unit holds.");
    return wrong;
}

std::vector<std::string> gearsWithCurrentRemoved(const ApplicationChart& chart) {
    std::vector<std::string> names;
    if (chart.currentRemoved.empty())
        return names;
    for (const ApplicationChart::Gear& gear : chart.gears) {
        const bool all =
            std::all_of(chart.solenoids.begin(), chart.solenoids.end(), [&](const auto& solenoid) {
                const auto found = chart.currentRemoved.find(solenoid.name);
                return solenoid.common || found == chart.currentRemoved.end() ||
                       fits(found->second, stateIn(gear, solenoid.name));
            });
        if (all)
            names.push_back(gear.name);
    }
    return names;
}

std::vector<std::string> remarks(const ApplicationChart& chart) {
    Sentences remarks;
    const std::vector<std::string> gears = gearsWithCurrentRemoved(chart);
    if (chart.currentRemoved.empty())
        remarks.emplace_back("The chart does not give the pattern with current removed.");
    else if (gears.empty())
        remarks.emplace_back("The pattern with current removed belongs to no gear in the chart: "
                             "expect neutral, or a gear that the selector's valve makes.");
    else
        remarks.push_back(fmt::format("With current removed the solenoids stand as in {}.",
                                      fmt::join(gears, ", ")));
    if (chart.bores.empty())
        remarks.emplace_back("No valve-body bores are entered: they cannot be named as suspects.");
    if (!chart.fluidTotal && !chart.fluidPanService)
        remarks.emplace_back("The chart does not give the quantity of fluid.");
    if (!chart.levelFrom || !chart.levelTo)
        remarks.emplace_back(
            "The chart does not give the temperature at which the level is valid.");
    unlikeSiblings(chart, remarks);
    return remarks;
}

} // namespace swarfbook

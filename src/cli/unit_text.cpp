// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/unit_text.h"

#include "cli/text_table.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace swarfbook::cli {
namespace {

using Rows = std::vector<std::vector<std::string>>;

std::string titled(const std::string& title, const Rows& rows) {
    return rows.size() < 2 ? "" : title + "\n" + textTable(rows) + "\n";
}

Rows elementRows(const ApplicationChart& chart) {
    Rows rows{{"gear"}};
    for (const ApplicationChart::Element& e : chart.elements)
        rows[0].push_back(fmt::format("{} {}", wordOf(e.kind), e.name));
    for (const ApplicationChart::Gear& gear : chart.gears) {
        std::vector<std::string> row{gear.name};
        for (const ApplicationChart::Element& e : chart.elements) {
            const auto found = gear.elements.find(e.name);
            const Applied state = found == gear.elements.end() ? Applied::no : found->second;
            row.emplace_back(state == Applied::yes ? "x" : state == Applied::idle ? "(x)" : "");
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

Rows stateRows(const ApplicationChart& chart) {
    if (chart.solenoids.empty())
        return {};
    Rows rows{{"gear"}};
    for (const ApplicationChart::Solenoid& s : chart.solenoids)
        rows[0].push_back(s.name);
    for (const ApplicationChart::Gear& gear : chart.gears) {
        std::vector<std::string> row{gear.name};
        for (const ApplicationChart::Solenoid& s : chart.solenoids)
            row.emplace_back(wordOf(stateIn(gear, s.name)));
        rows.push_back(std::move(row));
    }
    if (chart.currentRemoved.empty())
        return rows;
    std::vector<std::string> row{"current removed"};
    for (const ApplicationChart::Solenoid& s : chart.solenoids) {
        const auto found = chart.currentRemoved.find(s.name);
        row.emplace_back(found == chart.currentRemoved.end() ? "any" : wordOf(found->second));
    }
    rows.push_back(std::move(row));
    return rows;
}

std::string feedsOf(const ApplicationChart::Solenoid& s) {
    if (s.common)
        return s.pressureRisesWhenOn ? "common, + with current" : "common, - with current";
    std::string text;
    for (const ApplicationChart::Feed& feed : s.feeds)
        text +=
            (text.empty() ? "" : " ") + std::string(feed.risesWhenOn ? "+" : "-") + feed.element;
    return text.empty() ? "not known" : text;
}

Rows solenoidRows(const ApplicationChart& chart) {
    Rows rows{{"solenoid", "kind", "ohm at 20 C", "feeds", "identical group", "in codes"}};
    for (const ApplicationChart::Solenoid& s : chart.solenoids)
        rows.push_back({s.name, std::string(wordOf(s.type)),
                        s.bandLow && s.bandHigh
                            ? fmt::format("{:g} to {:g}", s.bandLow->value(), s.bandHigh->value())
                            : "not known",
                        feedsOf(s),
                        s.calibrated         ? "none, calibrated"
                        : s.siblings.empty() ? "none"
                                             : s.siblings,
                        s.code.empty() ? "by its name" : s.code});
    return rows;
}

Rows boreRows(const ApplicationChart& chart) {
    Rows rows{{"bore", "serves gears", "moved by", "feeds"}};
    for (const ApplicationChart::Bore& b : chart.bores)
        rows.push_back({b.name, fmt::format("{}", fmt::join(b.gears, ", ")),
                        b.solenoid.empty() ? "no solenoid" : b.solenoid,
                        fmt::format("{}", fmt::join(b.feeds, ", "))});
    return rows;
}

std::string fluidText(const ApplicationChart& chart) {
    std::string text;
    if (chart.fluidTotal)
        text += fmt::format("Fluid in all: {:.1f} l\n", chart.fluidTotal->value());
    if (chart.fluidPanService)
        text += fmt::format("Fluid at a pan service: {:.1f} l\n", chart.fluidPanService->value());
    if (chart.levelFrom && chart.levelTo)
        text += fmt::format("The level is valid at {:.0f} to {:.0f} C\n", chart.levelFrom->value(),
                            chart.levelTo->value());
    return text;
}

} // namespace

std::string unitText(const ApplicationChart& chart) {
    return fmt::format("{}\nRead from: {}\n\n", chart.unit, chart.source) +
           titled("What holds ((x): applied without torque)", elementRows(chart)) +
           titled("States of the solenoids", stateRows(chart)) +
           titled("Solenoids", solenoidRows(chart)) + titled("Valve-body bores", boreRows(chart)) +
           fluidText(chart);
}

} // namespace swarfbook::cli

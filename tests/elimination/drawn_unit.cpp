// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/drawn_unit.h"

#include <set>

namespace swarfbook::test {
namespace {

std::string elementName(std::size_t i) {
    return "E" + std::to_string(i);
}

/// Sets of two or three elements, each once.
std::vector<std::set<std::size_t>> drawnRows(std::mt19937& dice, std::size_t elements,
                                             std::size_t gears) {
    std::set<std::set<std::size_t>> used;
    std::vector<std::set<std::size_t>> rows;
    while (rows.size() < gears) {
        std::set<std::size_t> row;
        const std::size_t size = 2 + dice() % 2;
        while (row.size() < size)
            row.insert(dice() % elements);
        if (used.insert(row).second)
            rows.push_back(row);
    }
    return rows;
}

bool holds(const ApplicationChart::Gear& gear, const std::string& element) {
    const auto found = gear.elements.find(element);
    return found != gear.elements.end() && found->second == Applied::yes;
}

} // namespace

DrawnUnit::DrawnUnit(std::mt19937& dice, int elements, int gears) {
    chart.unit = "drawn";
    const auto count = static_cast<std::size_t>(elements);
    for (std::size_t e = 0; e < count; ++e) {
        chart.elements.push_back({elementName(e), ElementKind::clutch});
        ApplicationChart::Solenoid solenoid;
        solenoid.name = "S" + std::to_string(e);
        solenoid.siblings = "all";
        solenoid.feeds = {{elementName(e), true}};
        chart.solenoids.push_back(solenoid);
        chart.bores.push_back({"B" + std::to_string(e), {}, solenoid.name, {elementName(e)}});
    }
    const auto rows = drawnRows(dice, count, static_cast<std::size_t>(gears));
    for (std::size_t g = 0; g < rows.size(); ++g) {
        ApplicationChart::Gear gear;
        gear.name = g == 0 ? "R" : std::to_string(g);
        for (std::size_t e = 0; e < count; ++e) {
            const bool on = rows[g].contains(e);
            gear.elements[elementName(e)] = on ? Applied::yes : Applied::no;
            gear.solenoids["S" + std::to_string(e)] =
                on ? SolenoidCommand::on : SolenoidCommand::off;
        }
        chart.gears.push_back(gear);
    }
}

PlantedFault drawnFault(std::mt19937& dice, const ApplicationChart& chart) {
    const std::string e = std::to_string(dice() % chart.elements.size());
    PlantedFault fault;
    const auto kind = dice() % 4;
    fault.part = kind == 0   ? PartName{PartKind::solenoid, "S" + e}
                 : kind == 1 ? PartName{PartKind::bore, "B" + e}
                 : kind == 2 ? PartName{PartKind::circuit, "S" + e}
                             : PartName{PartKind::element, "E" + e};
    fault.from = static_cast<Load>(1 + dice() % 3);
    fault.onlyHot = dice() % 2 == 0;
    return fault;
}

GearSeen driveWith(const ApplicationChart& chart, const PlantedFault& fault,
                   const std::string& gear, const Driven& driven) {
    const std::string element = "E" + fault.part.name.substr(1);
    const bool asked = holds(*chart.gear(gear), element);
    const bool shows =
        driven.load >= fault.from && (!fault.onlyHot || driven.warmth == Warmth::hot);
    return seen(gear, asked && shows ? GearResult::slips : GearResult::good, driven);
}

Driven drawnDrive(std::mt19937& dice) {
    return {static_cast<Load>(1 + dice() % 3), dice() % 2 == 0 ? Warmth::hot : Warmth::cold};
}

} // namespace swarfbook::test

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "elimination/elimination.h"

#include <filesystem>
#include <string>
#include <vector>

namespace swarfbook::test {

using Names = std::vector<std::string>;

inline const BenchTests& benchTests() {
    static const BenchTests tests =
        loadBenchTests(std::filesystem::path(SWARFBOOK_SOURCE_DIR) / "models/bench-tests.json");
    return tests;
}

inline ApplicationChart demoChart() {
    return loadApplicationChart(std::filesystem::path(SWARFBOOK_SOURCE_DIR) /
                                "models/units/demo-5.json");
}

/// One gear of a chart drawn up in a test: "PY" and "101".
inline ApplicationChart::Gear gearRow(const std::string& name, const std::string& elements,
                                      const std::string& states) {
    ApplicationChart::Gear gear;
    gear.name = name;
    for (const char e : elements)
        gear.elements[std::string(1, e)] = Applied::yes;
    for (std::size_t i = 0; i < states.size(); ++i)
        gear.solenoids["s" + std::to_string(i + 1)] =
            states[i] == '1' ? SolenoidCommand::on : SolenoidCommand::off;
    return gear;
}

/// The invented unit of the worked check: R = QY 001, 1 = PY 101, 2 = PX 110, 3 = PQ 100,
/// 4 = QX 010. What its solenoids feed is not part of that check.
inline ApplicationChart workedChart() {
    ApplicationChart chart;
    chart.unit = "worked";
    chart.source = "invented";
    for (const char* name : {"P", "Q", "X", "Y"})
        chart.elements.push_back({name, ElementKind::clutch});
    for (const char* name : {"s1", "s2", "s3"}) {
        ApplicationChart::Solenoid solenoid;
        solenoid.name = name;
        chart.solenoids.push_back(solenoid);
    }
    chart.gears = {gearRow("R", "QY", "001"), gearRow("1", "PY", "101"), gearRow("2", "PX", "110"),
                   gearRow("3", "PQ", "100"), gearRow("4", "QX", "010")};
    return chart;
}

inline GearSeen seen(const std::string& gear, GearResult result, const Driven& driven = {}) {
    return {gear, result, driven, (result == GearResult::good ? "good in " : "slip in ") + gear};
}

/// Slip in the first gears, good in the others.
inline EliminationEvidence slipAndGood(const std::vector<std::string>& slip,
                                       const std::vector<std::string>& good) {
    EliminationEvidence evidence;
    for (const std::string& gear : slip)
        evidence.gears.push_back(seen(gear, GearResult::slips));
    for (const std::string& gear : good)
        evidence.gears.push_back(seen(gear, GearResult::good));
    return evidence;
}

inline const EliminatedPart& partNamed(const Elimination& e, PartKind kind,
                                       const std::string& name) {
    for (const EliminatedPart& part : e.parts)
        if (part.part.kind == kind && part.part.name == name)
            return part;
    throw std::runtime_error("no part " + name);
}

inline std::vector<std::string> namesIn(const Elimination& e, PartState state) {
    std::vector<std::string> names;
    for (const EliminatedPart* part : e.inState(state))
        names.push_back(part->label);
    return names;
}

} // namespace swarfbook::test

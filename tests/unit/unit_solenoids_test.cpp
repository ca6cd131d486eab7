// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "unit/unit_solenoids.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

// A letter names no fixed part, and pressure solenoid A is mostly that of the line pressure: common
// practice, no source.
namespace {

using Solenoid = ApplicationChart::Solenoid;

Solenoid solenoid(const std::string& name, SolenoidKind type, bool common = false) {
    Solenoid s;
    s.name = name;
    s.type = type;
    s.common = common;
    return s;
}

ApplicationChart chartOf(std::vector<Solenoid> solenoids) {
    ApplicationChart chart;
    chart.unit = "Demo";
    chart.solenoids = std::move(solenoids);
    return chart;
}

std::string meant(const ApplicationChart& chart, const std::string& code) {
    const Solenoid* found = solenoidOfCode(chart, parseCode(code));
    return found == nullptr ? "" : found->name;
}

} // namespace

TEST_CASE("a code means the solenoid that the chart says, not a fixed letter") {
    const ApplicationChart plain =
        chartOf({solenoid("A", SolenoidKind::onOff), solenoid("B", SolenoidKind::onOff),
                 solenoid("line", SolenoidKind::linear, true),
                 solenoid("converter", SolenoidKind::converter, true)});
    CHECK(meant(plain, "P0753") == "A");
    CHECK(meant(plain, "P0748") == "line");
    CHECK(meant(plain, "P0778") == "B");
    CHECK(meant(plain, "P0798").empty());
    CHECK(meant(plain, "P0733").empty());

    ApplicationChart said = plain;
    said.solenoids[1].code = "pressure A";
    CHECK(meant(said, "P0748") == "B");
    CHECK(meant(said, "P0758").empty()); // B is no shift solenoid, by the chart

    // a pressure solenoid of that letter comes before one that gears share
    CHECK(meant(chartOf({solenoid("A", SolenoidKind::linear),
                         solenoid("line", SolenoidKind::linear, true)}),
                "P0748") == "A");
    // two that gears share: it is not known which one is meant
    CHECK(meant(chartOf({solenoid("line", SolenoidKind::linear, true),
                         solenoid("lube", SolenoidKind::linear, true)}),
                "P0748")
              .empty());
}

TEST_CASE("a solenoid is meant by its name, or by a name that ends in it") {
    const ApplicationChart chart =
        chartOf({solenoid("A", SolenoidKind::onOff), solenoid("line", SolenoidKind::linear, true)});
    CHECK(solenoidMeant(chart, "shift a")->name == "A");
    CHECK(solenoidMeant(chart, "Line")->name == "line");
    CHECK(solenoidMeant(chart, "D") == nullptr);
}

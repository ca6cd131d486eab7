// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/observation_words.h"
#include "bench/typed.h"

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// State of a holding element in a gear: `idle` = applied, but it carries no torque there.
enum class Applied { no, yes, idle };
template <> struct Words<Applied> {
    static constexpr std::string_view what = "state of an element";
    static constexpr std::array all{std::pair{Applied::no, std::string_view("no")},
                                    std::pair{Applied::yes, std::string_view("yes")},
                                    std::pair{Applied::idle, std::string_view("idle")}};
};

/// State of a solenoid in a gear; `any` = it does not matter.
enum class SolenoidCommand { off, on, modulated, any };
template <> struct Words<SolenoidCommand> {
    static constexpr std::string_view what = "state of a solenoid";
    static constexpr std::array all{
        std::pair{SolenoidCommand::off, std::string_view("off")},
        std::pair{SolenoidCommand::on, std::string_view("on")},
        std::pair{SolenoidCommand::modulated, std::string_view("modulated")},
        std::pair{SolenoidCommand::any, std::string_view("any")}};
};

enum class ElementKind { clutch, brake, oneWayClutch };
template <> struct Words<ElementKind> {
    static constexpr std::string_view what = "kind of element";
    static constexpr std::array all{
        std::pair{ElementKind::clutch, std::string_view("clutch")},
        std::pair{ElementKind::brake, std::string_view("brake")},
        std::pair{ElementKind::oneWayClutch, std::string_view("one-way-clutch")}};
};

/// The unit at hand as its user typed it from the maker's manual: which element holds and which
/// solenoid is driven in each gear.
struct ApplicationChart {
    struct Element {
        std::string name;
        ElementKind kind = ElementKind::clutch;
    };
    struct Solenoid {
        std::string name;
        SolenoidKind type = SolenoidKind::notSaid;
        std::optional<Ohms> bandLow, bandHigh; ///< the maker's, at 20 C
        std::string siblings;                  ///< group of identical parts, "" = none
        bool calibrated = false;               ///< carries data of its own: not to be exchanged
        std::vector<std::string> feeds;        ///< elements; empty when common
        bool pressureRisesWhenOn = true;
        bool common = false; ///< line pressure, converter
    };
    struct Gear {
        std::string name; ///< "R", "1", ...
        bool manualRange = false;
        std::map<std::string, Applied> elements;          ///< by name; absent = no
        std::map<std::string, SolenoidCommand> solenoids; ///< by name; absent = any
    };
    struct Bore {
        std::string name;
        std::vector<std::string> gears;
        std::string solenoid; ///< "" = none
    };
    std::string unit;   ///< "Demo 5"
    std::string source; ///< where the user read it
    std::vector<Element> elements;
    std::vector<Solenoid> solenoids;
    std::vector<Gear> gears;
    std::map<std::string, SolenoidCommand> currentRemoved; ///< pattern of the fail-safe gear
    std::vector<Bore> bores;
    std::optional<Litres> fluidTotal, fluidPanService;
    std::optional<Celsius> levelFrom, levelTo; ///< window in which the level is valid
};

/// Reads a chart of models/units/. Throws ToolError naming the file and the entry that is missing,
/// unknown or not a word of its kind.
/// Checked: tests/bench/application_chart_test.cpp.
ApplicationChart loadApplicationChart(const std::filesystem::path& file);

/// What does not fit together, one sentence each; empty when the chart is sound: a gear that
/// nothing holds, two gears alike, a solenoid that feeds nothing, a name used but not declared.
std::vector<std::string> inconsistencies(const ApplicationChart& chart);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/observation_words.h"
#include "bench/typed.h"

#include <nlohmann/json.hpp>

#include <cstdint>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace swarfbook {

/// State of a holding element in a gear: `idle` = applied, but it carries no torque there.
enum class Applied { no, yes, idle };
template <> struct EnumNames<Applied> {
    static constexpr std::string_view what = "state of an element";
    static constexpr std::array all{std::pair{Applied::no, std::string_view("no")},
                                    std::pair{Applied::yes, std::string_view("yes")},
                                    std::pair{Applied::idle, std::string_view("idle")}};
};

/// State of a solenoid in a gear; `any` = it does not matter.
enum class SolenoidCommand { off, on, modulated, any };
template <> struct EnumNames<SolenoidCommand> {
    static constexpr std::string_view what = "state of a solenoid";
    static constexpr std::array all{
        std::pair{SolenoidCommand::off, std::string_view("off")},
        std::pair{SolenoidCommand::on, std::string_view("on")},
        std::pair{SolenoidCommand::modulated, std::string_view("modulated")},
        std::pair{SolenoidCommand::any, std::string_view("any")}};
};

enum class ElementKind { clutch, brake, oneWayClutch };
template <> struct EnumNames<ElementKind> {
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
    /// One element that a solenoid feeds.
    struct Feed {
        std::string element;
        bool risesWhenOn = true; ///< its pressure rises with current
    };
    struct Solenoid {
        std::string name;
        SolenoidKind type = SolenoidKind::notSaid;
        std::optional<Ohms> bandLow, bandHigh; ///< the maker's, at 20 C
        std::string siblings;                  ///< group of identical parts, "" = none
        bool calibrated = false;               ///< carries data of its own: not to be exchanged
        std::vector<Feed> feeds;               ///< empty when common
        bool pressureRisesWhenOn = true;       ///< common: whether pressure rises with current
        bool common = false;                   ///< line pressure, converter
        std::string code; ///< how codes name it, "shift A" or "pressure B"; "" = by its name
    };
    struct Gear {
        std::string name; ///< "R", "1", ...; a manual range starts with its gear: "1 by hand"
        bool manualRange = false;
        std::map<std::string, Applied> elements;          ///< by name; absent = no
        std::map<std::string, SolenoidCommand> solenoids; ///< by name; absent = any
    };
    struct Bore {
        std::string name;
        std::vector<std::string> gears;
        std::string solenoid;           ///< "" = none
        std::vector<std::string> feeds; ///< elements whose fluid passes it, where known
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

    [[nodiscard]] const Gear* gear(const std::string& name) const;
    [[nodiscard]] const Element* element(const std::string& name) const;
    [[nodiscard]] const Solenoid* solenoid(const std::string& name) const;
    /// The manual range that belongs to an automatic gear ("1 by hand" to "1"), nullptr if none.
    [[nodiscard]] const Gear* manualRangeOf(const std::string& gear) const;
};

/// State of an element in a gear. A one-way clutch in a manual range counts as idle if the
/// automatic range of that gear holds without some element that the manual range applies, because
/// it is bridged there.
Applied stateIn(const ApplicationChart& chart, const ApplicationChart::Gear& gear,
                const ApplicationChart::Element& element);
/// State of a solenoid in a gear; `any` where the chart says nothing.
SolenoidCommand stateIn(const ApplicationChart::Gear& gear, const std::string& solenoid);
/// Whether the gear drives the vehicle: neither P nor N.
bool drives(const ApplicationChart::Gear& gear);
/// Whether a solenoid serves the converter clutch (bench/converter_clutch.h).
bool servesConverter(const ApplicationChart::Solenoid& solenoid);

/// The chart from and to the JSON of models/units/. The reader throws UsageError or a JSON error
/// naming the entry that is missing, unknown or not a word of its kind.
/// Checked: tests/unit/application_chart_test.cpp.
ApplicationChart chartFromJson(const nlohmann::json& from);
nlohmann::ordered_json toJson(const ApplicationChart& chart);

/// Charts have some 10 KB; a larger file than this is not a chart.
inline constexpr std::uintmax_t largestChartBytes = std::uintmax_t{4} << 20;

/// Reads the text of a chart file. Throws ToolError with the file's name and what is wrong with it.
ApplicationChart chartFromText(std::string_view text, const std::string& name);

/// Reads a chart file. Throws ToolError naming the file and what is wrong with it, also if it is
/// not an ordinary file or is larger than largestChartBytes.
/// Checked: tests/unit/application_chart_test.cpp.
ApplicationChart loadApplicationChart(const std::filesystem::path& file);

} // namespace swarfbook

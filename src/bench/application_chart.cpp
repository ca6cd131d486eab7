// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/application_chart.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <fstream>

namespace swarfbook {
namespace {

using nlohmann::json;

std::optional<Ohms> ohmsAt(const json& from, const char* name) {
    if (!from.contains(name))
        return std::nullopt;
    return Ohms(from.at(name).get<double>());
}

template <HasWords Enum> std::map<std::string, Enum> wordsByName(const json& from) {
    std::map<std::string, Enum> result;
    for (const auto& entry : from.items())
        result[entry.key()] = fromWord<Enum>(entry.value().get<std::string>());
    return result;
}

ApplicationChart::Solenoid readSolenoid(const json& from) {
    ApplicationChart::Solenoid s;
    s.name = from.at("name").get<std::string>();
    s.type = fromWord<SolenoidKind>(from.at("type").get<std::string>());
    s.bandLow = ohmsAt(from, "band_low_ohm");
    s.bandHigh = ohmsAt(from, "band_high_ohm");
    s.siblings = from.value("siblings", std::string());
    s.calibrated = from.value("calibrated", false);
    s.feeds = from.value("feeds", std::vector<std::string>{});
    s.pressureRisesWhenOn = from.value("pressure_rises_when_on", true);
    s.common = from.value("common", false);
    return s;
}

ApplicationChart::Gear readGear(const json& from) {
    ApplicationChart::Gear g;
    g.name = from.at("name").get<std::string>();
    g.manualRange = from.value("manual_range", false);
    g.elements = wordsByName<Applied>(from.at("elements"));
    g.solenoids = wordsByName<SolenoidCommand>(from.at("solenoids"));
    return g;
}

void readFluid(const json& from, ApplicationChart& chart) {
    chart.fluidTotal = Litres(from.at("total_l").get<double>());
    chart.fluidPanService = Litres(from.at("pan_service_l").get<double>());
    chart.levelFrom = Celsius(from.at("level_from_c").get<double>());
    chart.levelTo = Celsius(from.at("level_to_c").get<double>());
}

ApplicationChart readChart(const json& from) {
    ApplicationChart chart;
    chart.unit = from.at("unit").get<std::string>();
    chart.source = from.at("source").get<std::string>();
    for (const json& e : from.at("elements"))
        chart.elements.push_back({e.at("name").get<std::string>(),
                                  fromWord<ElementKind>(e.at("kind").get<std::string>())});
    for (const json& s : from.at("solenoids"))
        chart.solenoids.push_back(readSolenoid(s));
    for (const json& g : from.at("gears"))
        chart.gears.push_back(readGear(g));
    chart.currentRemoved = wordsByName<SolenoidCommand>(from.at("current_removed"));
    for (const json& b : from.value("bores", json::array()))
        chart.bores.push_back({b.at("name").get<std::string>(),
                               b.value("gears", std::vector<std::string>{}),
                               b.value("solenoid", std::string())});
    if (from.contains("fluid"))
        readFluid(from.at("fluid"), chart);
    return chart;
}

template <class Part> bool isDeclared(const std::vector<Part>& parts, const std::string& name) {
    return std::any_of(parts.begin(), parts.end(), [&](const Part& p) { return p.name == name; });
}

template <class Part>
void findDoubles(const std::vector<Part>& parts, std::string_view what,
                 std::vector<std::string>& wrong) {
    for (std::size_t i = 0; i < parts.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
            if (parts[i].name == parts[j].name)
                wrong.push_back(fmt::format("The {} {} is there twice.", what, parts[i].name));
}

void checkGear(const ApplicationChart& chart, const ApplicationChart::Gear& gear,
               std::vector<std::string>& wrong) {
    int holding = 0;
    for (const auto& [name, state] : gear.elements) {
        holding += state == Applied::yes;
        if (!isDeclared(chart.elements, name))
            wrong.push_back(fmt::format("Gear {} names the element {}, which is not declared.",
                                        gear.name, name));
    }
    for (const auto& entry : gear.solenoids)
        if (!isDeclared(chart.solenoids, entry.first))
            wrong.push_back(fmt::format("Gear {} names the solenoid {}, which is not declared.",
                                        gear.name, entry.first));
    const bool drives = gear.name != "N" && gear.name != "P";
    if (drives && holding == 0)
        wrong.push_back(fmt::format("Nothing holds gear {}.", gear.name));
}

} // namespace

ApplicationChart loadApplicationChart(const std::filesystem::path& file) {
    std::ifstream in(file);
    if (!in)
        throw ToolError(fmt::format("The application chart {} cannot be read.", file.string()));
    try {
        return readChart(json::parse(in));
    } catch (const std::exception& wrong) {
        throw ToolError(
            fmt::format("The application chart {} is not sound: {}", file.string(), wrong.what()));
    }
}

std::vector<std::string> inconsistencies(const ApplicationChart& chart) {
    std::vector<std::string> wrong;
    findDoubles(chart.elements, "element", wrong);
    findDoubles(chart.solenoids, "solenoid", wrong);
    for (const ApplicationChart::Gear& gear : chart.gears)
        checkGear(chart, gear, wrong);
    for (std::size_t i = 0; i < chart.gears.size(); ++i)
        for (std::size_t j = 0; j < i; ++j) {
            const auto &a = chart.gears[j], &b = chart.gears[i];
            if (a.manualRange == b.manualRange && a.elements == b.elements)
                wrong.push_back(
                    fmt::format("Gears {} and {} are held by the same elements.", a.name, b.name));
        }
    for (const ApplicationChart::Solenoid& s : chart.solenoids) {
        if (s.feeds.empty() && !s.common)
            wrong.push_back(fmt::format("Solenoid {} feeds nothing.", s.name));
        for (const std::string& element : s.feeds)
            if (!isDeclared(chart.elements, element))
                wrong.push_back(
                    fmt::format("Solenoid {} feeds {}, which is not declared.", s.name, element));
    }
    return wrong;
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "unit/application_chart.h"

#include <fmt/format.h>

namespace swarfbook {
namespace {

using nlohmann::json;
using nlohmann::ordered_json;

template <class Unit> std::optional<Unit> quantityAt(const json& from, const char* name) {
    if (!from.contains(name))
        return std::nullopt;
    return Unit(from.at(name).get<double>());
}

template <class Unit>
void put(ordered_json& into, const char* name, const std::optional<Unit>& quantity) {
    if (quantity)
        into[name] = quantity->value();
}

template <HasNames Enum> std::map<std::string, Enum> wordsByName(const json& from) {
    std::map<std::string, Enum> result;
    for (const auto& entry : from.items())
        result[entry.key()] = fromWord<Enum>(entry.value().get<std::string>());
    return result;
}

template <HasNames Enum> ordered_json wordsOf(const std::map<std::string, Enum>& states) {
    ordered_json result = ordered_json::object();
    for (const auto& [name, state] : states)
        result[name] = wordOf(state);
    return result;
}

/// "P" or "+P": rises with current; "-P": falls. Plain names follow the solenoid's own sense.
ApplicationChart::Feed feedFrom(const std::string& text, bool usual) {
    if (text.starts_with('+') || text.starts_with('-'))
        return {text.substr(1), text[0] == '+'};
    return {text, usual};
}

ApplicationChart::Solenoid readSolenoid(const json& from) {
    ApplicationChart::Solenoid s;
    s.name = from.at("name").get<std::string>();
    s.type = fromWord<SolenoidKind>(from.at("type").get<std::string>());
    s.bandLow = quantityAt<Ohms>(from, "band_low_ohm");
    s.bandHigh = quantityAt<Ohms>(from, "band_high_ohm");
    s.siblings = from.value("siblings", std::string());
    s.calibrated = from.value("calibrated", false);
    s.pressureRisesWhenOn = from.value("pressure_rises_when_on", true);
    for (const std::string& feed : from.value("feeds", std::vector<std::string>{}))
        s.feeds.push_back(feedFrom(feed, s.pressureRisesWhenOn));
    s.common = from.value("common", false);
    s.code = from.value("code", std::string());
    return s;
}

ordered_json solenoidJson(const ApplicationChart::Solenoid& s) {
    ordered_json into{{"name", s.name}, {"type", wordOf(s.type)}};
    put(into, "band_low_ohm", s.bandLow);
    put(into, "band_high_ohm", s.bandHigh);
    if (!s.siblings.empty())
        into["siblings"] = s.siblings;
    if (s.calibrated)
        into["calibrated"] = true;
    if (!s.code.empty())
        into["code"] = s.code;
    if (s.common) {
        into["common"] = true;
        into["pressure_rises_when_on"] = s.pressureRisesWhenOn;
    }
    ordered_json feeds = ordered_json::array();
    for (const ApplicationChart::Feed& feed : s.feeds)
        feeds.push_back((feed.risesWhenOn ? "+" : "-") + feed.element);
    if (!s.common || !s.feeds.empty())
        into["feeds"] = std::move(feeds);
    return into;
}

ApplicationChart::Gear readGear(const json& from) {
    ApplicationChart::Gear g;
    g.name = from.at("name").get<std::string>();
    g.manualRange = from.value("manual_range", false);
    g.elements = wordsByName<Applied>(from.at("elements"));
    g.solenoids = wordsByName<SolenoidCommand>(from.at("solenoids"));
    return g;
}

ordered_json gearJson(const ApplicationChart::Gear& g) {
    ordered_json into{{"name", g.name}};
    if (g.manualRange)
        into["manual_range"] = true;
    into["elements"] = wordsOf(g.elements);
    into["solenoids"] = wordsOf(g.solenoids);
    return into;
}

ApplicationChart::Bore readBore(const json& from) {
    return {from.at("name").get<std::string>(), from.value("gears", std::vector<std::string>{}),
            from.value("solenoid", std::string()), from.value("feeds", std::vector<std::string>{})};
}

ordered_json boreJson(const ApplicationChart::Bore& b) {
    ordered_json into{{"name", b.name}, {"gears", b.gears}};
    if (!b.solenoid.empty())
        into["solenoid"] = b.solenoid;
    if (!b.feeds.empty())
        into["feeds"] = b.feeds;
    return into;
}

void readFluid(const json& from, ApplicationChart& chart) {
    chart.fluidTotal = quantityAt<Litres>(from, "total_l");
    chart.fluidPanService = quantityAt<Litres>(from, "pan_service_l");
    chart.levelFrom = quantityAt<Celsius>(from, "level_from_c");
    chart.levelTo = quantityAt<Celsius>(from, "level_to_c");
}

ordered_json fluidJson(const ApplicationChart& chart) {
    ordered_json into = ordered_json::object();
    put(into, "total_l", chart.fluidTotal);
    put(into, "pan_service_l", chart.fluidPanService);
    put(into, "level_from_c", chart.levelFrom);
    put(into, "level_to_c", chart.levelTo);
    return into;
}

} // namespace

ApplicationChart chartFromJson(const nlohmann::json& from) {
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
        chart.bores.push_back(readBore(b));
    if (from.contains("fluid"))
        readFluid(from.at("fluid"), chart);
    return chart;
}

nlohmann::ordered_json toJson(const ApplicationChart& chart) {
    ordered_json elements = ordered_json::array(), solenoids = ordered_json::array(),
                 gears = ordered_json::array(), bores = ordered_json::array();
    for (const ApplicationChart::Element& e : chart.elements)
        elements.push_back({{"name", e.name}, {"kind", wordOf(e.kind)}});
    for (const ApplicationChart::Solenoid& s : chart.solenoids)
        solenoids.push_back(solenoidJson(s));
    for (const ApplicationChart::Gear& g : chart.gears)
        gears.push_back(gearJson(g));
    for (const ApplicationChart::Bore& b : chart.bores)
        bores.push_back(boreJson(b));
    ordered_json into{{"unit", chart.unit},
                      {"source", chart.source},
                      {"elements", std::move(elements)},
                      {"solenoids", std::move(solenoids)},
                      {"gears", std::move(gears)},
                      {"current_removed", wordsOf(chart.currentRemoved)},
                      {"bores", std::move(bores)}};
    if (chart.fluidTotal || chart.fluidPanService || chart.levelFrom || chart.levelTo)
        into["fluid"] = fluidJson(chart);
    return into;
}

} // namespace swarfbook

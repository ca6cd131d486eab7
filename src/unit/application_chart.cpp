// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "unit/application_chart.h"

#include "base/errors.h"
#include "base/regular_file.h"
#include "bench/converter_clutch.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <fstream>

namespace swarfbook {
namespace {

template <class Part> const Part* named(const std::vector<Part>& parts, const std::string& name) {
    const auto found =
        std::find_if(parts.begin(), parts.end(), [&](const Part& p) { return p.name == name; });
    return found == parts.end() ? nullptr : &*found;
}

/// Whether the name of a manual range starts with that of the automatic gear: "1 by hand", "1M".
bool startsWithGear(const std::string& manual, const std::string& gear) {
    return manual.size() > gear.size() && manual.starts_with(gear) &&
           std::isdigit(static_cast<unsigned char>(manual[gear.size()])) == 0;
}

bool bridged(const ApplicationChart& chart, const ApplicationChart::Gear& manual) {
    for (const ApplicationChart::Gear& gear : chart.gears) {
        if (gear.manualRange || !startsWithGear(manual.name, gear.name))
            continue;
        return std::any_of(manual.elements.begin(), manual.elements.end(), [&](const auto& entry) {
            const auto automatic = gear.elements.find(entry.first);
            return entry.second == Applied::yes &&
                   (automatic == gear.elements.end() || automatic->second != Applied::yes);
        });
    }
    return false;
}

} // namespace

const ApplicationChart::Gear* ApplicationChart::gear(const std::string& name) const {
    return named(gears, name);
}

const ApplicationChart::Element* ApplicationChart::element(const std::string& name) const {
    return named(elements, name);
}

const ApplicationChart::Solenoid* ApplicationChart::solenoid(const std::string& name) const {
    return named(solenoids, name);
}

const ApplicationChart::Gear* ApplicationChart::manualRangeOf(const std::string& gear) const {
    const auto found = std::find_if(gears.begin(), gears.end(), [&](const Gear& g) {
        return g.manualRange && startsWithGear(g.name, gear);
    });
    return found == gears.end() ? nullptr : &*found;
}

Applied stateIn(const ApplicationChart& chart, const ApplicationChart::Gear& gear,
                const ApplicationChart::Element& element) {
    const auto found = gear.elements.find(element.name);
    const Applied state = found == gear.elements.end() ? Applied::no : found->second;
    const bool oneWay = element.kind == ElementKind::oneWayClutch;
    return state == Applied::yes && oneWay && gear.manualRange && bridged(chart, gear)
               ? Applied::idle
               : state;
}

SolenoidCommand stateIn(const ApplicationChart::Gear& gear, const std::string& solenoid) {
    const auto found = gear.solenoids.find(solenoid);
    return found == gear.solenoids.end() ? SolenoidCommand::any : found->second;
}

bool drives(const ApplicationChart::Gear& gear) {
    return gear.name != "N" && gear.name != "P";
}

bool servesConverter(const ApplicationChart::Solenoid& solenoid) {
    return servesConverterClutch(solenoid.type, solenoid.name);
}

ApplicationChart chartFromText(std::string_view text, const std::string& name) {
    try {
        return chartFromJson(nlohmann::json::parse(text));
    } catch (const std::exception& wrong) {
        throw ToolError(
            fmt::format("The application chart {} is not sound: {}", name, wrong.what()));
    }
}

ApplicationChart loadApplicationChart(const std::filesystem::path& file) {
    if (const std::string why = whyNotReadable(file); !why.empty())
        throw ToolError(fmt::format("The application chart cannot be read: {}", why));
    std::error_code error;
    const auto size = std::filesystem::file_size(file, error);
    if (!error && size > largestChartBytes)
        throw ToolError(fmt::format("{} is far too large for an application chart ({} bytes).",
                                    file.string(), size));
    std::ifstream in(file, std::ios::binary);
    if (error || !in.is_open())
        throw ToolError(fmt::format("The application chart {} cannot be read.", file.string()));
    std::string text(size, '\0');
    in.read(text.data(), static_cast<std::streamsize>(size));
    text.resize(static_cast<std::size_t>(in.gcount()));
    return chartFromText(text, file.string());
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/layout.h"

#include "base/data_file.h"
#include "base/errors.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cmath>

namespace swarfbook {
namespace {

using nlohmann::json;

PointOnCard pointOf(const json& pair) {
    return {pair.at(0).get<double>(), pair.at(1).get<double>()};
}

CardLayout layoutOf(const std::string& name, const json& from) {
    CardLayout layout;
    layout.name = name;
    layout.outer = {0.0, 0.0, from.at("outer").at(0), from.at("outer").at(1)};
    const json& window = from.at("window");
    layout.window = {window.at("x"), window.at("y"), window.at("w"), window.at("h")};
    layout.markerSize = from.at("marker_size");
    for (const auto& [id, centre] : from.at("markers").items())
        layout.markers[std::stoi(id)] = pointOf(centre);
    layout.patchSize = from.at("patch_size");
    for (const json& patch : from.at("patches"))
        layout.patches.push_back({pointOf(patch.at("at")), patch.at("ink")});
    layout.slantedSize = from.at("slanted_size");
    layout.slantedTurnDeg = from.at("slanted_turn_deg");
    for (const json& centre : from.at("slanted"))
        layout.slantedCentres.push_back(pointOf(centre));
    const json& code = from.at("serial_code");
    layout.serialCode = {code.at("x"), code.at("y"), code.at("side"), code.at("side")};
    const json& bar = from.at("check_bar");
    layout.checkBarY = bar.at("y");
    layout.checkBarX0 = bar.at("x0");
    layout.checkBarX1 = bar.at("x1");
    return layout;
}

} // namespace

std::vector<CardLayout> loadCardLayouts(const std::filesystem::path& file) {
    return readDataFile("The card geometry", file, [](const json& document) {
        std::vector<CardLayout> layouts;
        for (const auto& [name, from] : document.at("layouts").items())
            layouts.push_back(layoutOf(name, from));
        if (layouts.empty())
            throw std::runtime_error("it holds no layout");
        return layouts;
    });
}

PrintScale printScaleFromBar(const CardLayout& layout, Millimetres measuredBar) {
    const double ratio = measuredBar.value() / layout.checkBarLength();
    if (!std::isfinite(ratio) || ratio < 0.9 || ratio > 1.1)
        throw UsageError(fmt::format(
            "The check bar of the {} card is {:.0f} mm long as drawn; {} mm is more than 10 % off. "
            "Measure the bar once more, in millimetres, or print the card again at 100 %.",
            layout.name, layout.checkBarLength(), measuredBar.value()));
    constexpr double readingUncertainty = 0.1 / 1.7320508; // mm: callipers read to 0.1, rectangular
    return {ratio, readingUncertainty / layout.checkBarLength(), true};
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "entry/sample_typed.h"

#include "base/errors.h"
#include "base/text.h"
#include "bench/typed.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <stdexcept>
#include <utility>

namespace swarfbook {
namespace {

constexpr double leastMediaCm2 = 10.0, mostMediaCm2 = 1e5;    // a card's window; ten large filters
constexpr double leastVolumeMl = 1.0, mostVolumeMl = 20000.0; // a syringe; a whole filling
constexpr double mlPerLitre = 1000.0;

UsageError areaProblem(const std::string& text, const std::string& why) {
    return UsageError(fmt::format("The area \"{}\" {}. Type the area of the whole media, all "
                                  "pleats spread out, such as 1200cm2, 186in2 or 40x30cm.",
                                  text, why));
}

/// A number at the start of the text, which it takes away; a decimal comma is a point.
double takenNumber(std::string& text, const std::string& typed) {
    std::replace(text.begin(), text.end(), ',', '.');
    double value = 0.0;
    const char* end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, value, std::chars_format::fixed);
    if (error != std::errc())
        throw areaProblem(typed, "is not an area");
    text.erase(0, static_cast<std::size_t>(stop - text.data()));
    return value;
}

/// cm2 for one of the unit, of an area or of a side; 0 where there is no such unit.
double unitInCm(std::string unit, bool isArea) {
    constexpr std::array lengths{std::pair{std::string_view("cm"), 1.0},
                                 std::pair{std::string_view("mm"), 0.1},
                                 std::pair{std::string_view("m"), 100.0},
                                 std::pair{std::string_view("in"), 2.54}}; // by definition
    if (isArea && unit.ends_with("²"))
        unit.replace(unit.size() - 2, 2, "2");
    if (isArea && !unit.ends_with('2'))
        return 0.0;
    if (isArea)
        unit.pop_back();
    for (const auto& [name, cm] : lengths)
        if (unit == name)
            return isArea ? cm * cm : cm;
    return 0.0;
}

SquareCentimetres areaFrom(const std::string& typed) {
    std::string rest = lowered(typed);
    std::erase(rest, ' ');
    const double first = takenNumber(rest, typed);
    const bool bySides = rest.starts_with('x');
    if (bySides)
        rest.erase(0, 1);
    const double second = bySides ? takenNumber(rest, typed) : 1.0;
    const double unit = unitInCm(rest, !bySides);
    if (unit == 0.0)
        throw areaProblem(typed, "has no unit that is known");
    const double area = first * second * (bySides ? unit * unit : unit);
    if (!(area >= leastMediaCm2 && area <= mostMediaCm2))
        throw areaProblem(typed, "can hardly be that of a filter");
    return SquareCentimetres(area);
}

Millilitres volumeFrom(const std::string& typed) {
    const double ml = parseVolume(typed, Sure::meant).value.value() * mlPerLitre;
    if (!(ml >= leastVolumeMl && ml <= mostVolumeMl))
        throw UsageError(fmt::format("The volume \"{}\" can hardly have been strained. Type the "
                                     "volume of fluid that went through the paper, such as 100ml.",
                                     typed));
    return Millilitres(ml);
}

FilterSide sideFrom(const std::string& typed) {
    try {
        return filterSideFromName(typed);
    } catch (const std::invalid_argument&) {
        throw UsageError(fmt::format("There is no side \"{}\" of a filter. Say --side dirty or "
                                     "--side clean.",
                                     typed));
    }
}

} // namespace

SampleBasis sampleBasisTyped(const SampleTyped& typed, Place place) {
    const auto of = [&](const std::optional<std::string>& said, const char* what, Place own) {
        if (said && place != own)
            throw UsageError(fmt::format("--{} goes with --place {}.", what, placeName(own)));
        return said;
    };
    SampleBasis basis;
    if (const auto side = of(typed.side, "side", Place::filter))
        basis.side = sideFrom(*side);
    if (const auto area = of(typed.mediaArea, "media-area", Place::filter))
        basis.mediaArea = areaFrom(*area);
    if (const auto volume = of(typed.volume, "volume", Place::strained))
        basis.volume = volumeFrom(*volume);
    return basis;
}

} // namespace swarfbook

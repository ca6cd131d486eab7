// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "web/sample_fields.h"

#include "base/errors.h"
#include "entry/sample_typed.h"
#include "web/html.h"

#include <fmt/format.h>

#include <array>
#include <stdexcept>

namespace swarfbook::web {
namespace {

constexpr std::array<Place, 6> places{Place::pan,  Place::magnet, Place::filter,
                                      Place::tray, Place::pad,    Place::strained};

std::optional<std::string> ofPlace(const Asked& asked, const char* name, Place place, Place own) {
    const std::string said = asked.said(name);
    return place == own && !said.empty() ? std::optional(said) : std::nullopt;
}

std::string sideToTap(const SampleBasis& said) {
    std::string choices;
    for (const FilterSide side : {FilterSide::dirty, FilterSide::clean})
        choices += answerToTap("side", filterSideName(side),
                               std::string(filterSideName(side)) + " side", said.side == side);
    return choices + answerToTap("side", "", "not known", !said.side);
}

} // namespace

std::string placeChoices(std::optional<Place> chosen) {
    std::string choices;
    for (const Place place : places)
        choices += answerToTap("place", placeName(place), placeWord(place), place == chosen);
    return "<fieldset><legend>Where the debris is</legend><div class=\"choices\">" + choices +
           "</div></fieldset>";
}

std::string sampleFields(const SampleBasis& said) {
    const std::string area = said.mediaArea ? fmt::format("{:g}cm2", said.mediaArea->value()) : "";
    const std::string volume = said.volume ? fmt::format("{:g}ml", said.volume->value()) : "";
    return "<div data-place=\"filter\"><fieldset><legend>Which side of the filter</legend>"
           "<div class=\"choices\">" +
           sideToTap(said) + "</div></fieldset>" +
           field({"media-area", "Area of the whole media, pleats spread out", area,
                  "such as 40x30cm or 1200cm2; leave it empty where it was not measured"}) +
           "</div><div data-place=\"strained\">" +
           field({"volume", "Fluid that went through the paper", volume,
                  "such as 100ml; leave it empty where it was not measured"}) +
           "</div>";
}

Place placeAsked(const Asked& asked) {
    try {
        return placeFromName(asked.said("place"));
    } catch (const std::invalid_argument&) {
        throw UsageError("Say where the debris was.");
    }
}

SampleBasis basisAsked(const Asked& asked, Place place) {
    return sampleBasisTyped({ofPlace(asked, "side", place, Place::filter),
                             ofPlace(asked, "media-area", place, Place::filter),
                             ofPlace(asked, "volume", place, Place::strained)},
                            place);
}

} // namespace swarfbook::web

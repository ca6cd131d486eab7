// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/finding_options.h"

#include "assess/sample_basis_json.h"
#include "record/stored_values.h"

#include <nlohmann/json.hpp>

#include <exception>

namespace swarfbook {
namespace {

using nlohmann::json;

json lengthOrNull(const std::optional<double>& mm) {
    return mm ? json(*mm) : json(nullptr);
}

/// A member of this type, or nothing.
template <class Type> std::optional<Type> member(const json& from, const char* key) {
    try {
        return from.at(key).get<Type>();
    } catch (const json::exception&) {
        return std::nullopt;
    }
}

/// A length that a check bar can have.
std::optional<double> barMm(const json& from, const char* key) {
    const auto mm = member<double>(from, key);
    return mm && *mm > 0.0 && *mm <= longestMm ? mm : std::nullopt;
}

std::optional<FindingOptions::SecondPhoto> secondPhotoFrom(const json& options, const char* key) {
    const auto second = member<json>(options, key).value_or(json());
    const auto sha256 = member<std::string>(second, "sha256");
    const auto file = member<std::string>(second, "file");
    if (!sha256 || !file || !isSha256(*sha256))
        return std::nullopt;
    return FindingOptions::SecondPhoto{*sha256, *file};
}

json secondPhotoJson(const std::optional<FindingOptions::SecondPhoto>& second) {
    return second ? json{{"sha256", second->sha256}, {"file", second->file}} : json(nullptr);
}

/// What cannot be counts as not typed.
SampleBasis basisFrom(const json& options) {
    try {
        return sampleBasisFromJson(options.value("sample", json()));
    } catch (const std::exception&) {
        return {};
    }
}

} // namespace

std::string textOf(const FindingOptions& options) {
    return json{{"place", placeName(options.place)},
                {"sample", options.basis.isEmpty() ? json(nullptr) : json(toJson(options.basis))},
                {"serial", options.serial.empty() ? json(nullptr) : json(options.serial)},
                {"blank", secondPhotoJson(options.cleanReference)},
                {"after_magnet", secondPhotoJson(options.afterMagnet)},
                {"typed_bar_mm", lengthOrNull(options.typedBarMm)},
                {"measured_bar_mm", lengthOrNull(options.measuredBarMm)}}
        .dump();
}

std::optional<FindingOptions> findingOptionsFrom(std::string_view text) {
    const json from = json::parse(text, nullptr, false);
    if (!from.is_object())
        return std::nullopt;
    FindingOptions options;
    try {
        options.place = placeFromName(member<std::string>(from, "place").value_or("pad"));
    } catch (const std::exception&) {
        options.place = Place::pad;
    }
    options.basis = basisFrom(from);
    options.serial = member<std::string>(from, "serial").value_or("");
    options.cleanReference = secondPhotoFrom(from, "blank");
    options.afterMagnet = secondPhotoFrom(from, "after_magnet");
    options.typedBarMm = barMm(from, "typed_bar_mm");
    options.measuredBarMm = barMm(from, "measured_bar_mm");
    return options;
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/parsed_options.h"

#include "base/errors.h"
#include "base/shown_units.h"
#include "bench/typed.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <stdexcept>

namespace swarfbook::cli {
namespace {

constexpr std::string_view allPlaces = "pan, magnet, filter, tray, white-card or strained";

} // namespace

bool has(const ParsedOptions& words, const std::string& name) {
    return words.count(name) > 0 && !words[name].defaulted();
}

std::string textOf(const ParsedOptions& words, const std::string& name) {
    return maybeTextOf(words, name).value_or("");
}

std::optional<std::string> maybeTextOf(const ParsedOptions& words, const std::string& name) {
    if (words.count(name) == 0)
        return std::nullopt;
    return words[name].as<std::string>();
}

std::string fileNameOf(const ParsedOptions& words, const std::string& name) {
    if (has(words, name) && textOf(words, name).empty())
        throw UsageError(fmt::format("--{} needs the name of a file.", name));
    return textOf(words, name);
}

std::optional<double> numberOf(const ParsedOptions& words, const std::string& name,
                               std::string_view example) {
    const auto text = maybeTextOf(words, name);
    if (!text)
        return std::nullopt;
    double value = 0.0;
    const char* end = text->data() + text->size();
    const auto [stop, error] = std::from_chars(text->data(), end, value, std::chars_format::fixed);
    if (error != std::errc() || stop != end || !std::isfinite(value))
        throw UsageError(
            fmt::format("--{} \"{}\" is not a number. Write digits, with a point before "
                        "decimals and nothing between thousands, such as --{} {}.",
                        name, *text, name, example));
    return value;
}

std::optional<double> kilometresOf(const ParsedOptions& words, const std::string& name, bool miles,
                                   std::string_view example) {
    const auto text = maybeTextOf(words, name);
    if (!text)
        return std::nullopt;
    const bool hasUnit = text->find_first_of("kKmM") != std::string::npos;
    const bool grouped = text->find_first_of(" ,'") != std::string::npos &&
                         text->find('.') == std::string::npos && !text->empty();
    if (!hasUnit && !grouped)
        return numberOf(words, name, example).value() * (miles ? kmPerMile : 1.0);
    const std::size_t point = text->find('.');
    const std::size_t after = point == std::string::npos
                                  ? 0
                                  : text->find_first_not_of("0123456789", point + 1) - point - 1;
    if (point != std::string::npos && (after == 3 || after > 20))
        throw UsageError(fmt::format("--{} \"{}\" can be read in two ways. Write thousands without "
                                     "a point, such as --{} {}.",
                                     name, *text, name, example));
    const std::string withUnit = hasUnit ? *text : *text + (miles ? "mi" : "km");
    return parseDistance(withUnit, Sure::meant).value.value();
}

std::int64_t visitNumber(const std::string& text) {
    std::int64_t number = 0;
    const char* end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, number);
    if (error != std::errc() || stop != end || number < 1)
        throw UsageError(
            fmt::format("\"{}\" is not a visit number. Visits are numbered 1, 2, 3 and "
                        "so on; swarfbook visit list LABEL shows them.",
                        text));
    return number;
}

Place placeOf(const ParsedOptions& words) {
    const auto name = maybeTextOf(words, "place");
    if (!name)
        throw UsageError(fmt::format("Say where the debris was found: --place {}.", allPlaces));
    if (*name == "white-card")
        return Place::pad;
    try {
        return placeFromName(*name); // "pad", as books name the white card, too
    } catch (const std::invalid_argument&) {
        throw UsageError(
            fmt::format("There is no place \"{}\". Say --place {}.", *name, allPlaces));
    }
}

std::string placeOption(Place place) {
    return place == Place::pad ? "white-card" : std::string(placeName(place));
}

void allowOnly(const ParsedOptions& words, std::string_view use,
               const std::set<std::string>& allowed) {
    for (const auto& [name, value] : words)
        if (!value.defaulted() && !allowed.contains(name))
            throw UsageError(fmt::format(
                "swarfbook {1} takes no --{0}. swarfbook {2} --help shows what it takes.", name,
                use, use.substr(0, use.find(' '))));
}

} // namespace swarfbook::cli

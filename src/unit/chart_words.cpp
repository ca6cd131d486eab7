// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "unit/chart_words.h"

#include "base/errors.h"
#include "base/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>

namespace swarfbook {
namespace {

bool isBlank(char c) {
    return std::isspace(static_cast<unsigned char>(c)) != 0;
}

template <class Value, std::size_t N>
Value wordIn(const std::array<std::pair<std::string_view, Value>, N>& words, std::string_view text,
             std::string_view what, std::string_view say) {
    const std::string typed = lowered(trimmed(text));
    for (const auto& [word, value] : words)
        if (word == typed)
            return value;
    throw UsageError(fmt::format("\"{}\" is not a known {}. Say {}.", text, what, say));
}

/// The two halves of "11-15" or "11 to 15"; throws unless there are two.
std::pair<std::string, std::string> halves(std::string_view text, std::string_view example) {
    const std::string typed = trimmed(text);
    for (const std::string_view between : {std::string_view(" to "), std::string_view("-")}) {
        const std::size_t at = typed.find(between, 1);
        if (at == std::string::npos)
            continue;
        std::pair<std::string, std::string> both{trimmed(typed.substr(0, at)),
                                                 trimmed(typed.substr(at + between.size()))};
        if (!both.first.empty() && !both.second.empty())
            return both;
    }
    throw UsageError(
        fmt::format("\"{}\" is not a range. Say it from - to, such as {}.", text, example));
}

/// The unit behind the second value, used if the first value has none.
std::string unitOf(const std::string& text) {
    const std::size_t at = text.find_last_of("0123456789.,");
    return at == std::string::npos ? "" : text.substr(at + 1);
}

bool endsInDigit(const std::string& text) {
    return std::isdigit(static_cast<unsigned char>(text.back())) != 0;
}

} // namespace

std::string trimmed(std::string_view text) {
    while (!text.empty() && isBlank(text.front()))
        text.remove_prefix(1);
    while (!text.empty() && isBlank(text.back()))
        text.remove_suffix(1);
    return std::string(text);
}

std::vector<std::string> listTyped(std::string_view text) {
    const bool commas = text.find(',') != std::string_view::npos;
    std::vector<std::string> words;
    std::string word;
    const auto end = [&] {
        if (!trimmed(word).empty())
            words.push_back(trimmed(word));
        word.clear();
    };
    for (const char c : text) {
        if (commas ? c == ',' : isBlank(c))
            end();
        else
            word += c;
    }
    end();
    return words;
}

std::string nameTyped(std::string_view what, std::string_view text) {
    std::string name = trimmed(text);
    if (name.empty())
        throw UsageError(fmt::format("{} needs a name.", what));
    if (name.size() > 40)
        throw UsageError(fmt::format("\"{}\" is too long for a name: 40 letters at most.", name));
    if (std::string_view("+-(").find(name.front()) != std::string_view::npos ||
        name.find_first_of(",;\t\n\r") != std::string::npos)
        throw UsageError(
            fmt::format("\"{}\" is not a name: it may not start with + - or ( nor hold a "
                        "comma or semicolon.",
                        name));
    return name;
}

std::string sourceTyped(std::string_view text) {
    std::string source = trimmed(text);
    if (source.empty() || source.size() > 200)
        throw UsageError("Say where it is read from in a few words, such as: manual, page 12.");
    return source;
}

ApplicationChart::Element elementTyped(std::string_view text) {
    constexpr std::array<std::pair<std::string_view, ElementKind>, 6> kinds{
        {{"one-way clutch ", ElementKind::oneWayClutch},
         {"one-way-clutch ", ElementKind::oneWayClutch},
         {"one way clutch ", ElementKind::oneWayClutch},
         {"one-way ", ElementKind::oneWayClutch},
         {"clutch ", ElementKind::clutch},
         {"brake ", ElementKind::brake}}};
    const std::string typed = trimmed(text), lower = lowered(typed);
    for (const auto& [word, kind] : kinds)
        if (lower.starts_with(word))
            return {nameTyped("The element", std::string_view(typed).substr(word.size())), kind};
    throw UsageError(fmt::format("\"{}\" does not say what it is. Write its kind first: clutch P, "
                                 "brake X or one-way W.",
                                 typed));
}

SolenoidCommand stateTyped(std::string_view text) {
    constexpr std::array<std::pair<std::string_view, SolenoidCommand>, 11> words{
        {{"on", SolenoidCommand::on},
         {"1", SolenoidCommand::on},
         {"x", SolenoidCommand::on},
         {"off", SolenoidCommand::off},
         {"0", SolenoidCommand::off},
         {"modulated", SolenoidCommand::modulated},
         {"mod", SolenoidCommand::modulated},
         {"pwm", SolenoidCommand::modulated},
         {"any", SolenoidCommand::any},
         {"-", SolenoidCommand::any},
         {"*", SolenoidCommand::any}}};
    return wordIn(words, text, "state of a solenoid", "on, off, mod or any");
}

SolenoidKind solenoidKindTyped(std::string_view text) {
    constexpr std::array<std::pair<std::string_view, SolenoidKind>, 12> words{
        {{"on-off", SolenoidKind::onOff},
         {"on/off", SolenoidKind::onOff},
         {"on off", SolenoidKind::onOff},
         {"pwm", SolenoidKind::pulsed},
         {"pulsed", SolenoidKind::pulsed},
         {"linear", SolenoidKind::linear},
         {"variable", SolenoidKind::linear},
         {"variable force", SolenoidKind::linear},
         {"converter", SolenoidKind::converter},
         {"not-said", SolenoidKind::notSaid},
         {"unknown", SolenoidKind::notSaid},
         {"", SolenoidKind::notSaid}}};
    return wordIn(words, text, "kind of solenoid", "on-off, pwm, linear, converter or unknown");
}

Applied appliedTyped(std::string_view text) {
    constexpr std::array<std::pair<std::string_view, Applied>, 14> words{{{"x", Applied::yes},
                                                                          {"yes", Applied::yes},
                                                                          {"1", Applied::yes},
                                                                          {"on", Applied::yes},
                                                                          {"applied", Applied::yes},
                                                                          {"", Applied::no},
                                                                          {"no", Applied::no},
                                                                          {"0", Applied::no},
                                                                          {"off", Applied::no},
                                                                          {"-", Applied::no},
                                                                          {"c", Applied::idle},
                                                                          {"idle", Applied::idle},
                                                                          {"(x)", Applied::idle},
                                                                          {"(1)", Applied::idle}}};
    return wordIn(words, text, "state of an element",
                  "x where it holds, (x) where it is applied without torque, or nothing");
}

void feedsTyped(std::string_view text, const ApplicationChart& chart,
                ApplicationChart::Solenoid& into) {
    const std::string typed = trimmed(text), lower = lowered(typed);
    into.feeds.clear();
    into.common = lower == "common" || lower == "common +" || lower == "common -";
    into.pressureRisesWhenOn = lower != "common -";
    if (into.common || lower == "unknown")
        return;
    for (const std::string& word : listTyped(typed)) {
        const bool sign = word.front() == '+' || word.front() == '-';
        const std::string name = trimmed(std::string_view(word).substr(sign ? 1 : 0));
        if (chart.element(name) == nullptr)
            throw UsageError(fmt::format(
                "\"{}\" is not an element of this chart. Name what solenoid {} "
                "feeds, such as +{}; common for line pressure or "
                "converter; or unknown.",
                name, into.name, chart.elements.empty() ? "P" : chart.elements[0].name));
        into.feeds.push_back({name, word.front() != '-'});
    }
    if (into.feeds.empty())
        throw UsageError(
            fmt::format("Say what solenoid {} feeds, or common, or unknown.", into.name));
}

std::pair<Ohms, Ohms> bandTyped(std::string_view text) {
    const auto [from, to] = halves(text, "11-15");
    const Ohms low = parseOhms(endsInDigit(from) ? from + unitOf(to) : from).value;
    const Ohms high = parseOhms(to).value;
    if (high < low)
        throw UsageError(fmt::format("\"{}\" is upside down: the lower value comes first.", text));
    return {low, high};
}

std::pair<Celsius, Celsius> windowTyped(std::string_view text) {
    const auto [from, to] = halves(text, "35-45C");
    const std::string unit = endsInDigit(to) ? "C" : "";
    const Celsius high = parseTemperature(to + unit).value;
    const Celsius low = parseTemperature(endsInDigit(from) ? from + unitOf(to + unit) : from).value;
    if (high < low)
        throw UsageError(
            fmt::format("\"{}\" is upside down: the lower temperature comes first.", text));
    return {low, high};
}

std::string codeNameTyped(std::string_view text) {
    const std::string lower = lowered(trimmed(text));
    const std::size_t blank = lower.find(' ');
    const std::string family = lower.substr(0, blank);
    const bool known = (family == "shift" || family == "pressure") && blank != std::string::npos &&
                       lower.size() == blank + 2 && lower.back() >= 'a' && lower.back() <= 'z';
    if (!known)
        throw UsageError(fmt::format("\"{}\" is not how a code names a solenoid. Say shift or "
                                     "pressure and a letter, such as shift A.",
                                     text));
    return family + " " + static_cast<char>(std::toupper(static_cast<unsigned char>(lower.back())));
}

void markManualRanges(ApplicationChart& chart) {
    for (ApplicationChart::Gear& gear : chart.gears)
        gear.manualRange =
            std::any_of(chart.gears.begin(), chart.gears.end(), [&](const auto& other) {
                const std::string& start = other.name;
                return gear.name.size() > start.size() && gear.name.starts_with(start) &&
                       std::isdigit(static_cast<unsigned char>(gear.name[start.size()])) == 0;
            });
}

} // namespace swarfbook

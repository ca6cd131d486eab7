// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/shown_units.h"
#include "bench/enum_names.h"
#include "bench/typed.h"

#include <fmt/format.h>

#include <cctype>
#include <optional>
#include <string>
#include <vector>

/// Parts of the plain lines of observations.
namespace swarfbook::describing {

/// Parts of one line, joined by commas.
class Line {
  public:
    Line& add(const std::string& part) {
        if (!part.empty())
            text_ += (text_.empty() ? "" : ", ") + part;
        return *this;
    }
    Line& addIf(bool condition, std::string_view part) {
        return condition ? add(std::string(part)) : *this;
    }
    [[nodiscard]] std::string text() const { return text_; }

  private:
    std::string text_;
};

inline std::string yesNo(const std::optional<bool>& value, std::string_view yes,
                         std::string_view no) {
    return value ? std::string(*value ? yes : no) : std::string();
}

inline std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words)
        text += (text.empty() ? "" : ", ") + word;
    return text;
}

inline bool isNumber(const std::string& text) {
    return text.find_first_not_of("0123456789.,+-") == std::string::npos;
}

/// "12.6 (12.6 ohm)": the typed text, with the value in the shown unit unless the text already says
/// it.
template <class Unit>
std::string typed(const std::optional<Typed<Unit>>& value, std::string_view unit, int digits) {
    if (!value)
        return {};
    const ShownValue in = inShownUnit(value->value.value(), unit);
    const std::string converted = fmt::format("{:.{}f} {}", in.value, digits, in.unit);
    const std::string sure = value->sure ? " (unusual, confirmed)" : "";
    std::string plain;
    for (const char c : value->typed)
        if (c != ' ')
            plain += c;
    std::string bare;
    for (const char c : converted)
        if (c != ' ')
            bare += c;
    const bool bareNumber =
        !plain.empty() && std::isdigit(static_cast<unsigned char>(plain.back())) != 0;
    if (bareNumber && in.unit != unit)
        return fmt::format("{} {} ({}){}", value->typed, unit, converted, sure);
    if (plain == bare || bareNumber ||
        (plain.ends_with(in.unit) && isNumber(plain.substr(0, plain.size() - in.unit.size()))))
        return (bareNumber ? fmt::format("{} {}", value->typed, unit) : value->typed) + sure;
    return fmt::format("{} ({}){}", value->typed, converted, sure);
}

template <class Unit>
std::string labelled(std::string_view label, const std::optional<Typed<Unit>>& value,
                     std::string_view unit, int digits) {
    return value ? fmt::format("{} {}", label, typed(value, unit, digits)) : std::string();
}

template <HasNames Enum> std::string word(std::string_view label, Enum value, Enum nothing) {
    if (value == nothing)
        return {};
    return label.empty() ? std::string(wordOf(value)) : fmt::format("{} {}", label, wordOf(value));
}

} // namespace swarfbook::describing

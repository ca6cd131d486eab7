// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/codes.h"
#include "bench/gear_words.h"
#include "bench/observation_fields.h"
#include "bench/quantity_words.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

/// Reads the text of one field by its type and its description (field.h).
namespace swarfbook::fields {

/// Words of an enumeration that mean something: the index of each in its list, and its name on the
/// sheet.
std::vector<std::pair<std::size_t, std::string>> namedWords(const About& about, WordList words);

/// Index of the word that a text means: by its name on the sheet, by yes and no, or by a first
/// letter that only one of them has.
std::optional<std::size_t> placeMeant(const About& about, WordList words, const std::string& text);

std::optional<bool> yesOrNo(const About& about, const std::string& text);
bool saysNothing(const std::string& text);
[[noreturn]] void refuseYesOrNo(const About& about, const std::string& text);

/// The value that a text means, by its words or by placeMeant().
template <HasNames Enum> std::optional<Enum> meant(const About& about, const std::string& text) {
    const std::optional<Enum> typed = maybeFromWord<Enum>(text);
    if (typed)
        return typed;
    const auto place = placeMeant(about, enumWords<Enum>, text);
    return place ? std::optional(EnumNames<Enum>::all[*place].first) : std::nullopt;
}

// How a text is read into each type of field. `understands` says whether the text is one of the
// field's words, if the field takes words alone.

template <HasNames Enum> bool understands(const About& about, const Enum*, const std::string& t) {
    return meant<Enum>(about, t) || (!maybeFromWord<Enum>(t) && saysNothing(t));
}
template <HasNames Enum>
bool understands(const About& about, const std::optional<Enum>*, const std::string& t) {
    return understands(about, static_cast<const Enum*>(nullptr), t);
}
inline bool understands(const About& about, const std::optional<bool>*, const std::string& t) {
    return yesOrNo(about, t) || (about.typing != Typing::marks && saysNothing(t));
}
inline bool understands(const About& about, const bool*, const std::string& t) {
    return t.empty() || yesOrNo(about, t);
}
template <class Other> bool understands(const About&, const Other*, const std::string&) {
    return true;
}

template <HasNames Enum> void read(const About& about, const std::string& text, Sure, Enum& into) {
    if (about.typing == Typing::marks && text.empty())
        into = fromWord<Enum>(about.yes);
    else if (const auto value = meant<Enum>(about, text))
        into = *value;
    else if (!saysNothing(text))
        into = fromWord<Enum>(text); // refuses it
}
template <HasNames Enum>
void read(const About& about, const std::string& text, Sure sure, std::optional<Enum>& into) {
    if (meant<Enum>(about, text) || !saysNothing(text))
        read(about, text, sure, into.emplace());
}
inline void read(const About& about, const std::string& text, Sure, bool& into) {
    if (!text.empty() && !yesOrNo(about, text) && !saysNothing(text))
        refuseYesOrNo(about, text);
    into = text.empty() || yesOrNo(about, text).value_or(false);
}
inline void read(const About& about, const std::string& text, Sure, std::optional<bool>& into) {
    if (const auto answer = yesOrNo(about, text))
        into = answer;
    else if (!saysNothing(text))
        refuseYesOrNo(about, text);
}
inline void read(const About& about, const std::string& text, Sure, std::string& into) {
    into = about.typing == Typing::gear    ? gearOf(text)
           : about.typing == Typing::shift ? shiftOf(text)
                                           : text;
}
inline void read(const About& about, const std::string& text, Sure,
                 std::vector<std::string>& into) {
    if (about.typing == Typing::codes)
        into = codesTyped(text);
    else
        into = gearsOf(text);
}
template <class Unit>
void read(const About& about, const std::string& text, Sure sure,
          std::optional<Typed<Unit>>& into) {
    if (saysNothing(text))
        return;
    std::string part = text;
    if (about.typing == Typing::lowEnd)
        part = endsOf(text).first;
    if (about.typing == Typing::highEnd)
        part = endsOf(text).second;
    if constexpr (std::is_same_v<Unit, Kilopascals>)
        if (about.typing == Typing::vacuum) {
            into = parseVacuum(part, sure);
            return;
        }
    into = QuantityWords<Unit>::read(part, sure);
}

} // namespace swarfbook::fields

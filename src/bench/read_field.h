// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/codes.h"
#include "bench/gear_words.h"
#include "bench/observation_fields.h"
#include "bench/quantity_words.h"

#include <cctype>
#include <sstream>

/// Reads the text of one field by its type and by what is said of it in field.h.
namespace swarfbook::fields {

/// The words of a list parted by commas.
inline std::vector<std::string> partsOf(std::string_view list) {
    std::vector<std::string> parts;
    for (std::size_t at = 0; !list.empty() && at <= list.size();) {
        const std::size_t end = std::min(list.find(',', at), list.size());
        parts.emplace_back(list.substr(at, end - at));
        at = end + 1;
    }
    return parts;
}

inline bool isOneOf(std::string_view list, const std::string& text) {
    const std::string word = wordAsTyped(text);
    const auto parts = partsOf(list);
    return std::any_of(parts.begin(), parts.end(),
                       [&](const std::string& part) { return wordAsTyped(part) == word; });
}

inline bool saysYes(const About& about, const std::string& text) {
    return isOneOf("yes,y,true", text) || isOneOf(about.yes, text);
}
inline bool saysNo(const About& about, const std::string& text) {
    return isOneOf("no,n,false", text) || isOneOf(about.no, text);
}
inline bool saysNothing(const std::string& text) {
    return isOneOf("not-known,unknown,not-inspected,not-looked-at", text);
}

/// Words of an enumeration that say something, each with its name on the sheet.
template <HasWords Enum> std::vector<std::pair<Enum, std::string>> namedWords(const About& about) {
    const std::vector<std::string> boxes = partsOf(about.boxes);
    std::vector<std::pair<Enum, std::string>> named;
    for (const auto& [value, word] : Words<Enum>::all) {
        if (hasNothing(value) && value == Words<Enum>::all.front().first)
            continue;
        std::string name(word);
        std::replace(name.begin(), name.end(), '-', ' ');
        named.emplace_back(value, named.size() < boxes.size() ? boxes[named.size()] : name);
    }
    return named;
}

/// The only word that begins with this letter, if there is one.
template <HasWords Enum>
std::optional<Enum> meantByLetter(const About& about, const std::string& letter) {
    std::optional<Enum> meant;
    for (const auto& [value, name] : namedWords<Enum>(about))
        if (lowered(name).starts_with(lowered(letter))) {
            if (meant)
                return std::nullopt;
            meant = value;
        }
    return meant;
}

/// The value that a text means, by its words, its names on the sheet, yes and no, or the letter
/// that only one of them begins with. A mark has no other words than its own.
template <HasWords Enum> std::optional<Enum> meant(const About& about, const std::string& text) {
    if (const auto value = maybeFromWord<Enum>(text))
        return value;
    for (const auto& [value, name] : namedWords<Enum>(about))
        if (wordAsTyped(name) == wordAsTyped(text))
            return value;
    if (!about.yes.empty() && saysYes(about, text))
        return fromWord<Enum>(partsOf(about.yes).front());
    if (!about.no.empty() && saysNo(about, text))
        return fromWord<Enum>(partsOf(about.no).front());
    const bool letter = text.size() == 1 && std::isalpha(static_cast<unsigned char>(text[0])) != 0;
    return letter ? meantByLetter<Enum>(about, text) : std::nullopt;
}

inline std::optional<bool> yesOrNo(const About& about, const std::string& text) {
    if (about.typing == Typing::marks) // its own words alone
        return isOneOf(about.yes, text)  ? std::optional(true)
               : isOneOf(about.no, text) ? std::optional(false)
                                         : std::nullopt;
    return saysYes(about, text)  ? std::optional(true)
           : saysNo(about, text) ? std::optional(false)
                                 : std::nullopt;
}

[[noreturn]] inline void refuseYesOrNo(const About& about, const std::string& text) {
    const auto first = [](std::string_view list, const char* otherwise) {
        return list.empty() ? std::string(otherwise) : partsOf(list).front();
    };
    throw UsageError("--" + std::string(about.option) + " takes " + first(about.yes, "yes") +
                     " or " + first(about.no, "no") + ", not \"" + text + "\".");
}

// How a text is read into each type of field. `understands` says whether it is one of the field's
// words, where the field takes words alone.

template <HasWords Enum> bool understands(const About& about, const Enum*, const std::string& t) {
    return meant<Enum>(about, t) || (!maybeFromWord<Enum>(t) && saysNothing(t));
}
template <HasWords Enum>
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

template <HasWords Enum> void read(const About& about, const std::string& text, Sure, Enum& into) {
    if (about.typing == Typing::marks && text.empty())
        into = fromWord<Enum>(about.yes);
    else if (const auto value = meant<Enum>(about, text))
        into = *value;
    else if (!saysNothing(text))
        into = fromWord<Enum>(text); // refuses it
}
template <HasWords Enum>
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

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/errors.h"
#include "base/text.h"

#include <array>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>

namespace swarfbook {

/// The words an enumeration is written with, in the book and on the command line alike.
/// Specialised beside each enumeration: `static constexpr std::array all{std::pair{value, word}}`
/// and `static constexpr std::string_view what`, a noun for the question ("load"); `also`, of the
/// same form, lists other words that people type for them.
template <class Enum> struct Words;

template <class Enum>
concept HasWords = requires {
    Words<Enum>::all;
};

template <HasWords Enum> std::string_view wordOf(Enum value) {
    for (const auto& [known, word] : Words<Enum>::all)
        if (known == value)
            return word;
    throw std::logic_error("a value without a word");
}

/// "light, medium, firm": all words of an enumeration.
template <HasWords Enum> std::string wordList() {
    std::string list;
    for (const auto& entry : Words<Enum>::all)
        list += (list.empty() ? "" : ", ") + std::string(entry.second);
    return list;
}

/// Lower case, blanks and underscores as dashes.
inline std::string wordAsTyped(std::string_view text) {
    std::string word = lowered(text);
    for (char& c : word)
        c = c == ' ' || c == '_' ? '-' : c;
    return word;
}

/// The value a word stands for, however it is capitalised and spaced; nothing for another word.
template <HasWords Enum> std::optional<Enum> maybeFromWord(std::string_view text) {
    const std::string typed = wordAsTyped(text);
    for (const auto& [value, word] : Words<Enum>::all)
        if (lowered(word) == typed)
            return value;
    if constexpr (requires { Words<Enum>::also; })
        for (const auto& [value, word] : Words<Enum>::also)
            if (word == typed)
                return value;
    return std::nullopt;
}

/// The same; throws UsageError listing the words there are.
template <HasWords Enum> Enum fromWord(std::string_view text) {
    if (const auto value = maybeFromWord<Enum>(text))
        return *value;
    throw UsageError("\"" + std::string(text) + "\" is no " + std::string(Words<Enum>::what) +
                     ". Say one of: " + wordList<Enum>() + ".");
}

} // namespace swarfbook

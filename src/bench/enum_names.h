// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <optional>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>

namespace swarfbook {

/// The words an enumeration is written with, in the book and on the command line alike.
/// Specialised beside each enumeration: `static constexpr std::array all{std::pair{value, word}}`
/// and `static constexpr std::string_view what`, a noun for the question ("load"); `also`, of the
/// same form, lists other words that people type for them.
template <class Enum> struct EnumNames;

template <class Enum>
concept HasNames = requires {
    EnumNames<Enum>::all;
};

/// Words without the values that they stand for. Code that does not depend on the enumeration uses
/// them; otherwise the compiler would write it out for each of some forty enumerations.
using WordList = std::span<const std::string_view>;

/// The second of each pair.
template <class Value, std::size_t size>
constexpr std::array<std::string_view, size>
onlyWords(const std::array<std::pair<Value, std::string_view>, size>& pairs) {
    std::array<std::string_view, size> words;
    for (std::size_t i = 0; i < size; ++i)
        words[i] = pairs[i].second;
    return words;
}
/// All words of an enumeration, in the order of its values.
template <HasNames Enum> inline constexpr auto enumWords = onlyWords(EnumNames<Enum>::all);

template <HasNames Enum> std::string_view wordOf(Enum value) {
    for (const auto& [known, word] : EnumNames<Enum>::all)
        if (known == value)
            return word;
    throw std::logic_error("a value without a word");
}

/// "light, medium, firm": the words, joined.
std::string joinedWords(WordList words);

/// Lower case, blanks and underscores as dashes.
std::string wordAsTyped(std::string_view text);

/// Index of the word that the text means, whatever its capitals and spaces.
std::optional<std::size_t> placeOfWord(WordList words, std::string_view text);

/// Throws UsageError listing the possible words; `what` is a noun for the question.
[[noreturn]] void refuseWord(std::string_view text, std::string_view what, WordList words);

/// The value of a word, whatever its capitals and spaces; nothing for another word.
template <HasNames Enum> std::optional<Enum> maybeFromWord(std::string_view text) {
    if (const auto place = placeOfWord(enumWords<Enum>, text))
        return EnumNames<Enum>::all[*place].first;
    if constexpr (requires { EnumNames<Enum>::also; }) {
        static constexpr auto others = onlyWords(EnumNames<Enum>::also);
        if (const auto place = placeOfWord(others, text))
            return EnumNames<Enum>::also[*place].first;
    }
    return std::nullopt;
}

/// The same; throws UsageError listing the possible words.
template <HasNames Enum> Enum fromWord(std::string_view text) {
    if (const auto value = maybeFromWord<Enum>(text))
        return *value;
    refuseWord(text, EnumNames<Enum>::what, enumWords<Enum>);
}

} // namespace swarfbook

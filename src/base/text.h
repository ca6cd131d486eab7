// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What text may hold, decided here for all that is typed, stored and shown.
/// Checked: tests/base/text_test.cpp.
namespace swarfbook {

/// ASCII letters in lower case, all other bytes (UTF-8 too) as they are.
inline std::string lowered(std::string_view text) {
    std::string result(text);
    for (char& c : result)
        if (c >= 'A' && c <= 'Z')
            c = static_cast<char>(c - 'A' + 'a');
    return result;
}

/// Most characters of any text that is typed in.
inline constexpr std::size_t longestText = 4000;

/// Characters of UTF-8 text: bytes that do not continue one.
std::size_t characterCount(std::string_view text);

/// A part of text that must not reach a terminal, a page or the book as it is.
struct Unprintable {
    std::size_t at = 0;     ///< first byte
    std::size_t length = 1; ///< bytes
    std::string name;       ///< "the control character U+001B", "a byte (FF) that is not UTF-8"
    std::string escape;     ///< as it is shown: "\u001b", or "\xff" for a byte that is not UTF-8
};

/// The first such part from byte `from` on: a control character (Unicode category Cc), one that
/// turns the direction of writing or hides (U+061C, U+200B to U+200F, U+2028 to U+202E, U+2060 to
/// U+2069, U+FEFF), or a byte that is not UTF-8 (RFC 3629). Line breaks and tabs count as well.
std::optional<Unprintable> firstUnprintable(std::string_view text, std::size_t from = 0);

/// Whether line breaks and tabs stay as they are.
enum class Breaks { keep, escape };

/// The text with each unprintable part escaped. Gives UTF-8 whatever the bytes; inside a JSON
/// string the escapes of characters mean those same characters.
std::string shown(std::string_view bytes, Breaks breaks = Breaks::escape);

/// The text with each byte that is not UTF-8 replaced by U+FFFD, all else as it is.
std::string validUtf8(std::string_view bytes);

/// The text in pieces of at most `most` characters, cut at blanks where there are any in the last
/// half of a piece, else between two characters. Joined, with a blank where one was cut out, they
/// are the text again.
std::vector<std::string> piecesOf(std::string_view text, std::size_t most);

} // namespace swarfbook

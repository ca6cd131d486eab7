// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/text.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

unsigned byteAt(std::string_view text, std::size_t i) {
    return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U;
}

bool continues(unsigned byte) {
    return (byte & 0xC0U) == 0x80U;
}

/// A character of UTF-8; length 0 where the bytes are not UTF-8.
struct Character {
    char32_t code = 0;
    std::size_t length = 0;
};

/// RFC 3629, section 4: no overlong forms, no surrogates, nothing above U+10FFFF.
Character characterAt(std::string_view text, std::size_t i) {
    const unsigned first = byteAt(text, i);
    if (first < 0x80U)
        return {first, 1};
    const std::size_t length = first >= 0xF0U ? 4 : first >= 0xE0U ? 3 : 2;
    if (first < 0xC2U || first > 0xF4U || i + length > text.size())
        return {};
    char32_t code = first & (0xFFU >> (length + 1));
    for (std::size_t k = 1; k < length; ++k) {
        if (!continues(byteAt(text, i + k)))
            return {};
        code = code << 6U | (byteAt(text, i + k) & 0x3FU);
    }
    const bool overlong = (length == 3 && code < 0x800) || (length == 4 && code < 0x10000);
    if (overlong || (code >= 0xD800 && code <= 0xDFFF) || code > 0x10FFFF)
        return {};
    return {code, length};
}

bool isControl(char32_t c) {
    return c < 0x20 || (c >= 0x7F && c < 0xA0);
}

/// Unicode's marks of direction, its separators of lines, and what has no width.
bool isHidden(char32_t c) {
    return c == 0x061C || (c >= 0x200B && c <= 0x200F) || (c >= 0x2028 && c <= 0x202E) ||
           (c >= 0x2060 && c <= 0x2069) || c == 0xFEFF;
}

/// The text with each unprintable part escaped, line breaks and tabs too.
std::string shownWhole(std::string_view bytes) {
    std::string text;
    std::size_t done = 0;
    while (const auto part = firstUnprintable(bytes, done)) {
        text += bytes.substr(done, part->at - done);
        text += part->escape;
        done = part->at + part->length;
    }
    return text.append(bytes.substr(done));
}

} // namespace

std::size_t characterCount(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
        return !continues(static_cast<unsigned char>(c));
    }));
}

std::optional<Unprintable> firstUnprintable(std::string_view text, std::size_t from) {
    for (std::size_t i = from; i < text.size();) {
        if (text[i] >= 0x20 && text[i] < 0x7F) { // plain, as nearly all text is
            ++i;
            continue;
        }
        const Character c = characterAt(text, i);
        if (c.length == 0)
            return Unprintable{i, 1,
                               fmt::format("a byte ({:02X}) that is not UTF-8", byteAt(text, i)),
                               fmt::format("\\x{:02x}", byteAt(text, i))};
        if (isControl(c.code) || isHidden(c.code)) {
            const auto code = static_cast<unsigned>(c.code);
            return Unprintable{i, c.length,
                               fmt::format("the {} character U+{:04X}",
                                           isControl(c.code) ? "control" : "invisible", code),
                               fmt::format("\\u{:04x}", code)};
        }
        i += c.length;
    }
    return std::nullopt;
}

std::string shown(std::string_view bytes, Breaks breaks) {
    if (breaks == Breaks::escape)
        return shownWhole(bytes);
    std::string text;
    text.reserve(bytes.size());
    while (!bytes.empty()) {
        const std::size_t kept = std::min(bytes.find_first_of("\n\t"), bytes.size());
        text += shownWhole(bytes.substr(0, kept));
        text += bytes.substr(kept, 1);
        bytes.remove_prefix(std::min(kept + 1, bytes.size()));
    }
    return text;
}

std::string validUtf8(std::string_view bytes) {
    std::string text;
    text.reserve(bytes.size());
    for (std::size_t i = 0; i < bytes.size();) {
        std::size_t plain = i;
        while (plain < bytes.size() && static_cast<unsigned char>(bytes[plain]) < 0x80)
            ++plain;
        text += bytes.substr(i, plain - i);
        i = plain;
        if (i == bytes.size())
            break;
        const std::size_t length = characterAt(bytes, i).length;
        text += length == 0 ? std::string_view("\xEF\xBF\xBD") : bytes.substr(i, length);
        i += std::max<std::size_t>(length, 1);
    }
    return text;
}

std::vector<std::string> piecesOf(std::string_view text, std::size_t most) {
    std::vector<std::string> pieces;
    while (characterCount(text.substr(0, 4 * most + 4)) > most) {
        std::size_t end = 0, blank = 0;
        for (std::size_t count = 0; count < most; ++count) {
            if (text[end] == ' ' && 2 * count > most)
                blank = end;
            end += std::max<std::size_t>(characterAt(text, end).length, 1);
        }
        if (text[end] == ' ')
            blank = end;
        pieces.emplace_back(text.substr(0, blank > 0 ? blank : end));
        text.remove_prefix(blank > 0 ? blank + 1 : end);
    }
    pieces.emplace_back(text);
    return pieces;
}

} // namespace swarfbook

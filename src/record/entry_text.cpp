// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/entry_text.h"

#include "base/errors.h"
#include "base/text.h"

#include <fmt/format.h>

#include <cstring>

namespace swarfbook {
namespace {

std::string_view trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(" \t\r\n");
    if (first == std::string_view::npos)
        return {};
    return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

std::string checkedText(std::string_view what, std::string_view given, std::size_t longest,
                        bool lineBreaks) {
    const std::string_view text = trimmed(given);
    requirePlain(what, text, lineBreaks ? Breaks::keep : Breaks::escape);
    if (characterCount(text) > longest)
        throw UsageError(fmt::format("{} is {} characters long; at most {} fit. Shorten it.", what,
                                     characterCount(text), longest));
    return std::string(text);
}

} // namespace

std::string checkedLine(std::string_view what, std::string_view text, std::size_t longest) {
    return checkedText(what, text, longest, false);
}

std::string checkedNote(std::string_view what, std::string_view text, std::size_t longest) {
    return checkedText(what, text, longest, true);
}

void requirePlain(std::string_view what, std::string_view text, Breaks breaks) {
    auto part = firstUnprintable(text);
    while (part && breaks == Breaks::keep && std::strchr("\n\r\t", text[part->at]) != nullptr)
        part = firstUnprintable(text, part->at + part->length);
    if (part)
        throw UsageError(fmt::format("{} holds {} (at place {}). Type it again with letters, "
                                     "digits, blanks and signs only.",
                                     what, part->name,
                                     characterCount(text.substr(0, part->at)) + 1));
}

std::string readableText(std::string_view bytes) {
    return shown(bytes);
}

} // namespace swarfbook

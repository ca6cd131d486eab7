// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/read_field.h"

#include "base/errors.h"
#include "base/text.h"

#include <algorithm>
#include <cctype>

namespace swarfbook::fields {
namespace {

/// The words of a list parted by commas.
std::vector<std::string> partsOf(std::string_view list) {
    std::vector<std::string> parts;
    for (std::size_t at = 0; !list.empty() && at <= list.size();) {
        const std::size_t end = std::min(list.find(',', at), list.size());
        parts.emplace_back(list.substr(at, end - at));
        at = end + 1;
    }
    return parts;
}

bool isOneOf(std::string_view list, const std::string& text) {
    const std::string word = wordAsTyped(text);
    const auto parts = partsOf(list);
    return std::any_of(parts.begin(), parts.end(),
                       [&](const std::string& part) { return wordAsTyped(part) == word; });
}

bool saysYes(const About& about, const std::string& text) {
    return isOneOf("yes,y,true", text) || isOneOf(about.yes, text);
}

bool saysNo(const About& about, const std::string& text) {
    return isOneOf("no,n,false", text) || isOneOf(about.no, text);
}

/// The only word that begins with this letter, if there is one.
std::optional<std::size_t> meantByLetter(const About& about, WordList words,
                                         const std::string& letter) {
    std::optional<std::size_t> meant;
    for (const auto& [place, name] : namedWords(about, words))
        if (lowered(name).starts_with(lowered(letter))) {
            if (meant)
                return std::nullopt;
            meant = place;
        }
    return meant;
}

} // namespace

bool saysNothing(const std::string& text) {
    return isOneOf("not-known,unknown,not-inspected,not-looked-at", text);
}

std::vector<std::pair<std::size_t, std::string>> namedWords(const About& about, WordList words) {
    const std::vector<std::string> boxes = partsOf(about.boxes);
    std::vector<std::pair<std::size_t, std::string>> named;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (i == 0 && saysNothingGiven(words[i]))
            continue;
        std::string name(words[i]);
        std::replace(name.begin(), name.end(), '-', ' ');
        named.emplace_back(i, named.size() < boxes.size() ? boxes[named.size()] : name);
    }
    return named;
}

std::optional<std::size_t> placeMeant(const About& about, WordList words, const std::string& text) {
    for (const auto& [place, name] : namedWords(about, words))
        if (wordAsTyped(name) == wordAsTyped(text))
            return place;
    if (!about.yes.empty() && saysYes(about, text))
        return placeOfWord(words, partsOf(about.yes).front());
    if (!about.no.empty() && saysNo(about, text))
        return placeOfWord(words, partsOf(about.no).front());
    const bool letter = text.size() == 1 && std::isalpha(static_cast<unsigned char>(text[0])) != 0;
    return letter ? meantByLetter(about, words, text) : std::nullopt;
}

std::optional<bool> yesOrNo(const About& about, const std::string& text) {
    if (about.typing == Typing::marks) // its own words alone
        return isOneOf(about.yes, text)  ? std::optional(true)
               : isOneOf(about.no, text) ? std::optional(false)
                                         : std::nullopt;
    return saysYes(about, text)  ? std::optional(true)
           : saysNo(about, text) ? std::optional(false)
                                 : std::nullopt;
}

void refuseYesOrNo(const About& about, const std::string& text) {
    const auto first = [](std::string_view list, const char* otherwise) {
        return list.empty() ? std::string(otherwise) : partsOf(list).front();
    };
    const std::string words = first(about.yes, "yes") + " or " + first(about.no, "no");
    const bool plain = about.typing == Typing::marks || words == "yes or no";
    throw UsageError("--" + std::string(about.option) + " takes " +
                     (plain ? words : "yes or no (" + words + ")") + ", not \"" + text + "\".");
}

} // namespace swarfbook::fields

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/enum_names.h"

#include "base/errors.h"
#include "base/text.h"

#include <algorithm>
#include <iterator>
#include <vector>

namespace swarfbook {

std::string joinedWords(WordList words) {
    std::string list;
    for (const std::string_view word : words)
        list += (list.empty() ? "" : ", ") + std::string(word);
    return list;
}

std::string wordAsTyped(std::string_view text) {
    std::string word = lowered(text);
    for (char& c : word)
        c = c == ' ' || c == '_' ? '-' : c;
    return word;
}

std::optional<std::size_t> placeOfWord(WordList words, std::string_view text) {
    const std::string typed = wordAsTyped(text);
    for (std::size_t i = 0; i < words.size(); ++i)
        if (lowered(words[i]) == typed)
            return i;
    return std::nullopt;
}

void refuseWord(std::string_view text, std::string_view what, WordList words) {
    // "not-said" is what stands where nothing was typed: nobody needs to type it.
    std::vector<std::string_view> choices;
    std::copy_if(words.begin(), words.end(), std::back_inserter(choices),
                 [](std::string_view word) { return word != "not-said"; });
    throw UsageError("\"" + std::string(text) + "\" is not a known " + std::string(what) +
                     ". Say one of: " + joinedWords(choices) + ".");
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/near_words.h"

#include "base/text.h"

#include <algorithm>
#include <cstddef>
#include <numeric>
#include <utility>

namespace swarfbook {
namespace {

/// Levenshtein's edit distance, bytes.
std::size_t editDistance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t changed = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
            diagonal = row[j];
            row[j] = std::min({changed, row[j] + 1, row[j - 1] + 1});
        }
    }
    return row.back();
}

} // namespace

std::vector<std::string> nearWords(std::string_view typed, const std::vector<std::string>& known) {
    const std::string wanted = lowered(typed);
    std::vector<std::pair<std::size_t, std::string>> near;
    for (const std::string& word : known) {
        const std::string candidate = lowered(word);
        const bool contains = !wanted.empty() && (candidate.find(wanted) != std::string::npos ||
                                                  wanted.find(candidate) != std::string::npos);
        const std::size_t distance = editDistance(wanted, candidate);
        // A third of the letters wrong, two at least, is as far as a slip of the finger goes.
        if (contains || distance <= std::max<std::size_t>(2, wanted.size() / 3))
            near.emplace_back(distance, word);
    }
    std::sort(near.begin(), near.end());
    std::vector<std::string> words;
    for (const auto& [distance, word] : near)
        if (words.size() < 3)
            words.push_back(word);
    return words;
}

std::string didYouMean(std::string_view typed, const std::vector<std::string>& known) {
    std::string list;
    for (const std::string& word : nearWords(typed, known))
        list += (list.empty() ? "" : ", ") + word;
    return list.empty() ? "" : "Did you mean " + list + "?";
}

} // namespace swarfbook

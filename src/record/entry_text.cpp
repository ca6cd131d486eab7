// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/entry_text.h"

#include "base/errors.h"
#include "base/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstring>
#include <numeric>

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

std::vector<std::string> nearLabels(std::string_view typed, const std::vector<std::string>& known) {
    const std::string wanted = lowered(typed);
    std::vector<std::pair<std::size_t, std::string>> near;
    for (const std::string& label : known) {
        const std::string candidate = lowered(label);
        const bool contains = !wanted.empty() && (candidate.find(wanted) != std::string::npos ||
                                                  wanted.find(candidate) != std::string::npos);
        const std::size_t distance = editDistance(wanted, candidate);
        // A third of the letters wrong, two at least, is as far as a slip of the finger goes.
        if (contains || distance <= std::max<std::size_t>(2, wanted.size() / 3))
            near.emplace_back(distance, label);
    }
    std::sort(near.begin(), near.end());
    std::vector<std::string> labels;
    for (const auto& [distance, label] : near)
        if (labels.size() < 3)
            labels.push_back(label);
    return labels;
}

} // namespace swarfbook

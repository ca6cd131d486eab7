// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "unit/interview_answers.h"

#include "base/errors.h"
#include "base/text.h"
#include "unit/chart_words.h"

#include <fmt/format.h>

namespace swarfbook {

bool isWord(const std::string& answer, std::string_view word) {
    return lowered(trimmed(answer)) == word;
}

void takeHolders(const ApplicationChart& chart, const std::string& answer,
                 ApplicationChart::Gear& gear) {
    std::map<std::string, Applied> elements;
    bool holds = false;
    const bool none = isWord(answer, "nothing") || isWord(answer, "none");
    for (std::string word : none ? std::vector<std::string>{} : listTyped(answer)) {
        const bool idle = word.size() > 2 && word.front() == '(' && word.back() == ')';
        if (idle)
            word = trimmed(std::string_view(word).substr(1, word.size() - 2));
        if (chart.element(word) == nullptr)
            throw UsageError(fmt::format("\"{}\" is not one of the elements you named.", word));
        elements[word] = idle ? Applied::idle : Applied::yes;
        holds = holds || !idle;
    }
    if (drives(gear) && !holds)
        throw UsageError(fmt::format("Something must hold gear {}.", gear.name));
    gear.elements = std::move(elements);
}

std::string namesOf(const ApplicationChart& chart) {
    std::string names;
    for (const ApplicationChart::Solenoid& s : chart.solenoids)
        names += (names.empty() ? "" : ", ") + s.name;
    return names;
}

std::map<std::string, SolenoidCommand> statesTyped(const ApplicationChart& chart,
                                                   const std::string& answer) {
    const std::vector<std::string> words = listTyped(answer);
    if (words.size() != chart.solenoids.size())
        throw UsageError(fmt::format("{} states were given for {} solenoids ({}). Say one for "
                                     "each, in this order: on, off, mod or any.",
                                     words.size(), chart.solenoids.size(), namesOf(chart)));
    std::map<std::string, SolenoidCommand> states;
    for (std::size_t i = 0; i < words.size(); ++i)
        states[chart.solenoids[i].name] = stateTyped(words[i]);
    return states;
}

} // namespace swarfbook

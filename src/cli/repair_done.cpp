// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/repair_done.h"

#include "base/errors.h"
#include "base/text.h"
#include "judgement/suggestion.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>

namespace swarfbook::cli {
namespace {

/// A kind of part, the words it is known by, and what exchanging or repairing it comes to.
struct KindOfPart {
    std::string_view name;
    std::vector<std::string_view> words;
    Outcome rung;
    bool hasName; ///< "solenoid A"; else there is but one
};

const std::vector<KindOfPart>& kindsOfPart() {
    using enum Outcome;
    static const std::vector<KindOfPart> kinds{
        {"solenoid", {"solenoids", "solenoid"}, replaceSolenoids, true},
        {"bore", {"bores", "bore"}, repairBores, true},
        {"valve body", {"valve body", "valve-body"}, replaceValveBody, false},
        {"clutch", {"clutches", "clutch"}, openTheTransmission, true},
        {"brake", {"brakes", "brake", "band"}, openTheTransmission, true},
        {"converter", {"torque converter", "converter"}, openTheTransmission, false},
        {"pump", {"pump"}, openTheTransmission, false},
        {"cooler", {"cooler"}, outsideTheUnit, false},
        {"fluid level", {"fluid level", "level", "topped up", "refilled"}, outsideTheUnit, false},
        {"connector", {"connector"}, outsideTheUnit, false},
        {"harness", {"harness", "wiring"}, outsideTheUnit, false},
        {"control unit", {"control unit", "control-unit"}, outsideTheUnit, false},
        {"supply", {"supply", "earth"}, outsideTheUnit, false},
        {"filter", {"filter"}, cleanAndRefit, false},
        {"fluid", {"fluid"}, cleanAndRefit, false}};
    return kinds;
}

bool isAction(const std::string& word) {
    constexpr std::array<std::string_view, 16> actions{
        "replaced", "exchanged", "renewed", "repaired", "sleeved", "reamed", "cleaned", "flushed",
        "new",      "changed",   "fitted",  "right",    "put",     "the",    "filled",  "swapped"};
    return std::find(actions.begin(), actions.end(), lowered(word)) != actions.end();
}

/// "solenoid A replaced, filter and fluid new" as "solenoid A", "filter", "fluid".
std::vector<std::string> phrasesOf(const std::string& text) {
    std::vector<std::string> phrases(1);
    std::string word;
    const auto endWord = [&] {
        if (lowered(word) == "and" || word == "+" || word == "&")
            phrases.emplace_back();
        else if (!word.empty() && !isAction(word))
            phrases.back() += (phrases.back().empty() ? "" : " ") + word;
        word.clear();
    };
    for (const char c : text + " ") {
        if (c == ' ' || c == ',' || c == ';')
            endWord();
        else
            word += c;
        if (c == ',' || c == ';')
            phrases.emplace_back();
    }
    std::erase(phrases, "");
    return phrases;
}

const KindOfPart* kindOf(const std::string& phrase, std::string& name) {
    const std::string lower = lowered(phrase);
    for (const KindOfPart& kind : kindsOfPart())
        for (const std::string_view word : kind.words)
            if (lower == word || lower.starts_with(std::string(word) + " ")) {
                name = phrase.size() > word.size() ? phrase.substr(word.size() + 1) : "";
                return &kind;
            }
    return nullptr;
}

std::optional<Outcome> outcomeNamed(const std::string& text) {
    for (int i = 0; i <= static_cast<int>(Outcome::notEnoughEvidence); ++i) {
        const auto outcome = static_cast<Outcome>(i);
        std::string name = lowered(text);
        std::replace(name.begin(), name.end(), '-', ' ');
        if (outcomeName(outcome) == name)
            return outcome;
    }
    return std::nullopt;
}

[[noreturn]] void refuse(const std::string& text) {
    throw UsageError(fmt::format(
        "\"{}\" names no part: say the kind and the name, such as \"solenoid A replaced\" or "
        "\"bore "
        "2-3 shift valve sleeved\", or what the job came to, such as \"clean and refit\".",
        text));
}

} // namespace

RepairDone repairDone(const std::string& text) {
    if (const auto outcome = outcomeNamed(text))
        return {std::string(outcomeName(*outcome)), {}};
    RepairDone done;
    Outcome dearest = Outcome::outsideTheUnit;
    const KindOfPart* kind = nullptr;
    for (const std::string& phrase : phrasesOf(text)) {
        std::string name = phrase; // "solenoids A and B": the second stands without its kind
        if (const KindOfPart* said = kindOf(phrase, name))
            kind = said;
        else if (kind == nullptr || !kind->hasName)
            refuse(text);
        if (kind->hasName && name.empty())
            throw UsageError(fmt::format("Which {0}? Say its name: \"{0} A\".", kind->name));
        done.parts.push_back(std::string(kind->name) + (kind->hasName ? " " + name : ""));
        dearest = std::max(dearest, kind->rung);
    }
    if (done.parts.empty())
        refuse(text);
    done.rung = outcomeName(dearest);
    return done;
}

} // namespace swarfbook::cli

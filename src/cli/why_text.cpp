// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/why_text.h"

#include "judgement/reason_sources.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <set>

namespace swarfbook::cli {
namespace {

constexpr std::size_t turnsShown = 4;

std::int64_t numberOf(const VisitEvidence& visit, std::size_t index) {
    return index < visit.observationNumbers.size() ? visit.observationNumbers[index] : 0;
}

std::string turnLine(const DecisiveChange& turn) {
    std::vector<std::string> where;
    if (turn.untested)
        where.emplace_back("not tested yet");
    if (turn.number > 0)
        where.push_back(fmt::format("number {}", turn.number));
    if (turn.reachable && turn.minutes > 0.0)
        where.push_back(fmt::format("about {:.0f} min", turn.minutes));
    return fmt::format("  {}{}: {}\n", turn.observation,
                       where.empty() ? "" : fmt::format(" ({})", fmt::join(where, ", ")),
                       turn.headline);
}

std::string observationLines(const ReasonSources& sources, const VisitEvidence& visit) {
    std::string text;
    for (const std::size_t i : sources.observations) {
        const std::int64_t number = numberOf(visit, i);
        text += fmt::format("            {}: {}\n",
                            number > 0 ? fmt::format("observation {}", number)
                                       : std::string("entered with the visit"),
                            describe(visit.observations[i]));
    }
    for (const std::size_t i : sources.photos)
        text += fmt::format("            photo: {} ({})\n", visit.samples[i].photoName,
                            placeWord(visit.samples[i].place));
    return text;
}

std::string limitLines(const std::vector<std::string>& names, const SuggestionModel& model) {
    std::string text;
    for (const std::string& name : names) {
        const SuggestionModel::Limit& limit = model.limit(name);
        text += fmt::format("            limit {} = {:g} {} ({})\n", name, limit.value, limit.unit,
                            limit.source);
    }
    return text;
}

/// A rule's words and limits, the first time it is named.
std::string ruleLines(const std::string& name, const SuggestionModel& model,
                      std::set<std::string>& shown) {
    const auto rule = model.rules.find(name);
    if (rule == model.rules.end())
        return {};
    if (!shown.insert(name).second)
        return fmt::format("            rule {}: as above\n", name);
    return fmt::format("            rule {}: {} ({})\n", name, rule->second.words,
                       rule->second.source) +
           limitLines(rule->second.limits, model);
}

/// What stands above the turns of its kind.
std::string titleOf(const DecisiveChange& turn) {
    if (turn.unexpected)
        return "These results are not expected; each of them would change it:\n";
    return turn.reachable ? "Single observations that would change it, the cheapest first:\n"
                          : "It rests on these as well; they cannot be checked again now:\n";
}

} // namespace

std::string turnsText(const Suggestion& s) {
    const std::string notTried = s.notTried.empty() ? "" : s.notTried + "\n";
    if (s.turns.empty())
        return "No other single test would change this.\n" + notTried + "\n";
    std::string text, title;
    for (std::size_t i = 0; i < s.turns.size() && i < turnsShown; ++i) {
        if (title != titleOf(s.turns[i])) {
            title = titleOf(s.turns[i]);
            text += title;
        }
        text += turnLine(s.turns[i]);
    }
    if (s.turns.size() > turnsShown)
        text += fmt::format("  and {} more: swarfbook suggest --why shows them all\n",
                            s.turns.size() - turnsShown);
    return text + notTried + "\n";
}

std::string bordersText(const Suggestion& s) {
    if (s.nearBorders.empty())
        return {};
    std::string text = "Borderline:\n";
    for (const DecisiveChange& border : s.nearBorders)
        text += fmt::format("  {}{}: {}\n", border.observation,
                            border.number > 0 ? fmt::format(" (number {})", border.number) : "",
                            border.headline);
    return text + "\n";
}

std::string whyText(const Suggestion& s, const VisitEvidence& visit, const SuggestionModel& model) {
    std::string text = "Every reason, its rule with its limits, and what it rests on:\n";
    std::set<std::string> shown;
    for (const Reason& reason : s.all) {
        text +=
            fmt::format("  {} {}\n", reason.supports ? "for:    " : "against:", reason.sentence);
        text += ruleLines(reason.rule, model, shown);
        text += observationLines(sourcesOf(reason, visit, model), visit);
    }
    if (!s.turns.empty() || !s.nearBorders.empty())
        text += "\nWhat nearly decided otherwise, and the rule that would then weigh most:\n";
    for (const auto* list : {&s.nearBorders, &s.turns})
        for (const DecisiveChange& turn : *list)
            text += turnLine(turn) + ruleLines(turn.rule, model, shown);
    return text + "\n";
}

void addSources(nlohmann::ordered_json& document, const Suggestion& suggestion,
                const VisitEvidence& visit, const SuggestionModel& model) {
    for (std::size_t i = 0; i < suggestion.all.size(); ++i) {
        const ReasonSources sources = sourcesOf(suggestion.all[i], visit, model);
        nlohmann::ordered_json limits = nlohmann::ordered_json::array();
        for (const std::string& name : sources.limits) {
            const SuggestionModel::Limit& limit = model.limit(name);
            limits.push_back({{"name", name},
                              {"value", limit.value},
                              {"unit", limit.unit},
                              {"source", limit.source}});
        }
        nlohmann::ordered_json observations = nlohmann::ordered_json::array();
        for (const std::size_t index : sources.observations)
            observations.push_back({{"number", numberOf(visit, index)},
                                    {"text", describe(visit.observations[index])}});
        document["all_reasons"][i]["limits"] = limits;
        document["all_reasons"][i]["observations"] = observations;
    }
}

} // namespace swarfbook::cli

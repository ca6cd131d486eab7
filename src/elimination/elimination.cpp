// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "elimination/elimination.h"

#include "elimination/elimination_sentences.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>

namespace swarfbook {
namespace {

bool wasDriven(const EliminationEvidence& evidence, const std::string& gear) {
    return std::any_of(evidence.gears.begin(), evidence.gears.end(),
                       [&](const GearSeen& seen) { return seen.gear == gear; });
}

/// What was seen in a gear, the worst first.
std::string seenIn(const EliminationEvidence& evidence, const std::string& gear) {
    std::string word = "not driven";
    for (const GearSeen& seen : evidence.gears) {
        if (seen.gear != gear)
            continue;
        if (seen.result == GearResult::noDrive)
            return "no drive";
        if (seen.result == GearResult::slips)
            word = "slips";
        else if (seen.result == GearResult::wrongRatio && word != "slips")
            word = "wrong ratio";
        else if (word == "not driven")
            word = "good";
    }
    for (const GearObtained& seen : evidence.obtained)
        if (seen.commanded == gear)
            word = fmt::format("got {}", seen.obtained.empty() ? "none" : seen.obtained);
    return word;
}

/// For each column of the table, the numbers of the parts on the way to what holds its gear.
std::vector<std::set<std::size_t>> partsHolding(const DiagnosisContext& facts,
                                                const Elimination& e) {
    std::vector<std::set<std::size_t>> columns;
    for (const std::string& gear : e.gears) {
        std::set<std::size_t>& parts = columns.emplace_back();
        for (const Duty& duty : facts.parts.holding(*facts.chart.gear(gear)))
            parts.insert(duty.part);
    }
    return columns;
}

void addColumns(const ApplicationChart& chart, const EliminationEvidence& evidence,
                Elimination& into) {
    for (const ApplicationChart::Gear& gear : chart.gears) {
        if (!drives(gear) || (gear.manualRange && !wasDriven(evidence, gear.name)))
            continue;
        into.gears.push_back(gear.name);
        into.seenIn.push_back(seenIn(evidence, gear.name));
    }
}

EliminatedPart partOf(const DiagnosisContext& facts, const Elimination& e,
                      const std::vector<std::set<std::size_t>>& holding, std::size_t number) {
    EliminatedPart part;
    part.part = facts.parts.all()[number];
    part.label = facts.parts.label(number);
    const auto score = e.elements.score.find(part.part.name);
    if (part.part.kind == PartKind::element && score != e.elements.score.end())
        part.score = score->second;
    for (std::size_t column = 0; column < e.gears.size(); ++column) {
        const bool takesPart = holding[column].contains(number);
        const std::string& seen = e.seenIn[column];
        part.cells.push_back(!takesPart ? "" : seen == "not driven" ? "open" : seen);
    }
    judgePart(facts, number, part);
    return part;
}

std::vector<CommandedObtained> commandedObtained(const EliminationEvidence& evidence) {
    std::vector<CommandedObtained> all;
    for (const GearObtained& seen : evidence.obtained)
        all.push_back({seen.commanded, seen.obtained});
    if (all.empty())
        return all;
    for (const GearSeen& seen : evidence.gears)
        if (seen.result == GearResult::good)
            all.push_back({seen.gear, seen.gear});
    return all;
}

/// The wrong gears alone, without gears seen to be right.
std::vector<CommandedObtained> onlyWrong(const std::vector<CommandedObtained>& all) {
    std::vector<CommandedObtained> wrong;
    std::copy_if(all.begin(), all.end(), std::back_inserter(wrong),
                 [](const auto& o) { return o.commanded != o.obtained; });
    return wrong;
}

void addExplanations(const UnitParts& parts, const Explanations& found, Elimination& into) {
    into.pairs = found.pairs;
    into.soft = found.clearing == Clearing::onlySure;
    for (const ComponentSet& set : found.sets) {
        std::vector<std::string> labels;
        for (const std::size_t part : set)
            labels.push_back(parts.label(part));
        if (!labels.empty())
            into.explanations.push_back(std::move(labels));
    }
}

int rankOf(const EliminatedPart& part) {
    return part.state == PartState::suspect ? 0 : part.state == PartState::cleared ? 1 : 2;
}

} // namespace

std::string_view partStateName(PartState state) {
    constexpr std::array<std::string_view, 3> names{"suspect", "cleared", "untested"};
    return names.at(static_cast<std::size_t>(state));
}

std::vector<const EliminatedPart*> Elimination::inState(PartState state) const {
    std::vector<const EliminatedPart*> found;
    for (const EliminatedPart& part : parts)
        if (part.state == state)
            found.push_back(&part);
    return found;
}

Elimination eliminate(const ApplicationChart& chart, const EliminationEvidence& evidence,
                      const BenchTests& settings) {
    Elimination e;
    e.unit = chart.unit;
    const UnitParts parts(chart);
    const std::vector<DutiesSeen> seen = dutiesSeen(chart, parts, evidence);
    e.anythingBad = !evidence.oneOf.empty() ||
                    std::any_of(seen.begin(), seen.end(), [](const auto& s) { return s.bad; });
    const Explanations found = explain(parts, seen, evidence);
    const DiagnosisContext facts{chart, parts, seen, evidence, found};
    addColumns(chart, evidence, e);
    e.elements = elementSets(chart, evidence, settings);
    const std::set<ElementRole> roles = shiftSuspects(chart, evidence);
    e.shiftRoles.assign(roles.begin(), roles.end());
    e.stuck = stuckMatches(chart, commandedObtained(evidence));
    e.supplyLost = lostSupplyMatches(chart, onlyWrong(commandedObtained(evidence)));
    addExplanations(parts, found, e);
    const std::vector<std::set<std::size_t>> holding = partsHolding(facts, e);
    for (std::size_t part = 0; part < parts.all().size(); ++part)
        e.parts.push_back(partOf(facts, e, holding, part));
    std::stable_sort(e.parts.begin(), e.parts.end(), [](const auto& a, const auto& b) {
        return rankOf(a) != rankOf(b) ? rankOf(a) < rankOf(b) : a.score > b.score;
    });
    e.tests = testsByWorth({chart, parts, seen, evidence, found}, settings);
    e.summary = summaryOf(facts, e);
    e.notes = notesOf(facts, e);
    return e;
}

std::string listInWords(const std::vector<std::string>& words, std::size_t most) {
    std::string text;
    const std::size_t shown = words.size() > most ? most : words.size();
    for (std::size_t i = 0; i < shown; ++i)
        text += (i == 0                                           ? ""
                 : i + 1 == words.size() && shown == words.size() ? " and "
                                                                  : ", ") +
                words[i];
    return shown == words.size() ? text : fmt::format("{} and {} more", text, words.size() - shown);
}

std::string answersInWords(const TestChoice& test) {
    const auto left = [](const std::vector<std::string>& labels) {
        return labels.empty() ? std::string("no part that fits is left")
                              : fmt::format("{} {} left", listInWords(labels, 4),
                                            labels.size() == 1 ? "is" : "are");
    };
    const std::string bad = listInWords(test.leftIfBad, 4);
    if (test.leftIfBad == test.leftIfGood)
        return fmt::format("If it is bad, {} {} at fault; if it is good, that does not clear {} "
                           "yet.",
                           bad, test.leftIfBad.size() == 1 ? "is" : "are",
                           test.leftIfBad.size() == 1 ? "it" : "them");
    if (test.leftIfGood.empty())
        return fmt::format("If it is bad, {} {} at fault; if it is good, the fault is elsewhere.",
                           bad, test.leftIfBad.size() == 1 ? "is" : "are");
    return fmt::format("If it is bad, {}; if it is good, {}.", left(test.leftIfBad),
                       left(test.leftIfGood));
}

std::string testInWords(const TestChoice& test) {
    return fmt::format("{} (about {:.0f} minutes). {}", test.what, test.minutes,
                       answersInWords(test));
}

} // namespace swarfbook

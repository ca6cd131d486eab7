// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/learned.h"

#include "bench/visit_findings.h"
#include "judgement/failed_repairs.h"
#include "judgement/visit_samples.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace swarfbook {
namespace {

std::string codesInBroad(const SymptomFacts& s) {
    if (!s.codesRead)
        return "codes not read";
    if (s.has(CodeFamily::electrical))
        return s.circuits().size() > 1 ? "electrical codes" : "electrical code";
    if (!s.performances().empty())
        return "performance code";
    if (s.has(CodeFamily::ratio) || s.has(CodeFamily::slip))
        return "ratio or slip code";
    return s.anyCode() ? "other code" : "no code";
}

std::string complaintInBroad(const SymptomFacts& s) {
    if (s.noDrive || s.noDriveInGear)
        return "no drive";
    if (s.slipInGeneral || !s.slipGears.empty())
        return "slips";
    if (s.converterSlip || s.shudder)
        return "shudders";
    if (s.noise)
        return "noisy";
    if (!s.badShifts.empty() || s.wrongGear || s.failSafe || s.harshOrLate)
        return "shifts badly";
    if (s.overheats)
        return "runs hot";
    return s.driveTold ? "drives well" : "drive not told";
}

std::string debrisInBroad(const DebrisFacts& d) {
    if (d.milky)
        return "milky fluid";
    if (!d.inspected)
        return "debris not looked at";
    if (d.stopMetal != nullptr || d.doubtfulStop != nullptr)
        return "large metal";
    if (d.friction >= Friction::heavy)
        return "lining";
    if (d.yellow != nullptr)
        return "yellow metal";
    return d.steel != nullptr || d.nonMagnetic != nullptr ? "bright metal" : "fines";
}

/// What was done, if it was entered: with the repair, or by overruling.
std::string doneInstead(const VisitEvidence& visit, const RepairStep& step) {
    if (const auto done = dearestOf(step.rungs))
        return std::string(recommendationName(*done));
    const auto* overruled = latest<Overruled>(visit);
    return overruled != nullptr ? overruled->outcome : "";
}

} // namespace

std::string evidencePattern(const Evidence& evidence, const SuggestionModel& model) {
    const Facts facts = factsOf(evidence, model);
    return codesInBroad(facts.symptoms) + ", " + complaintInBroad(facts.symptoms) + ", " +
           debrisInBroad(*facts.debris);
}

std::optional<LearnedCase> learnedCase(const Evidence& evidence, const SuggestionModel& model) {
    const auto steps = repairSteps(evidence.now.observations, model.warmth);
    const auto step = std::find_if(steps.begin(), steps.end(),
                                   [](const RepairStep& one) { return one.held.has_value(); });
    if (step == steps.end())
        return std::nullopt;
    Evidence decidedBy = evidence;
    decidedBy.now.observations = beforeStep(evidence.now.observations, *step);
    const Recommendation outcome = suggest(decidedBy, model).outcome;
    if (outcome == Recommendation::notEnoughEvidence)
        return std::nullopt;
    const std::string did = doneInstead(evidence.now, *step);
    return LearnedCase{outcome, evidencePattern(decidedBy, model), *step->held,
                       did.empty() || did == recommendationName(outcome)};
}

std::vector<LearnedRow> learn(const std::vector<LearnedCase>& cases) {
    std::map<std::pair<Recommendation, std::string>, LearnedRow> rows;
    for (const LearnedCase& one : cases)
        for (const std::string& pattern : {one.pattern, std::string()}) {
            LearnedRow& row = rows[{one.outcome, pattern}];
            row.outcome = one.outcome;
            row.pattern = pattern;
            if (!one.asSuggested) {
                ++row.otherwise;
            } else if (one.held == Held::notKnown) {
                ++row.notKnown;
            } else {
                ++row.cases;
                row.held += one.held == Held::fixed;
            }
        }
    std::vector<LearnedRow> list;
    for (auto& [key, row] : rows) {
        if (row.cases >= fewestCases)
            row.share95 = wilsonInterval95(row.held, row.cases);
        list.push_back(row);
    }
    std::stable_sort(list.begin(), list.end(), [](const LearnedRow& a, const LearnedRow& b) {
        if (a.outcome != b.outcome)
            return a.outcome < b.outcome;
        if (a.pattern.empty() != b.pattern.empty())
            return b.pattern.empty();
        return a.cases > b.cases;
    });
    return list;
}

std::string learnedSentence(const LearnedRow& row) {
    std::string text;
    if (row.share95)
        text = fmt::format("held in {} of {} cases (95 %: {:.0f} to {:.0f} %)", row.held, row.cases,
                           100.0 * row.share95->low, 100.0 * row.share95->high);
    else
        text = fmt::format("no success rate yet: {} of the {} finished jobs that it takes",
                           row.cases, fewestCases);
    if (row.notKnown > 0)
        text += fmt::format("; outcome not known: {}", row.notKnown);
    if (row.otherwise > 0)
        text += fmt::format("; something else was done: {}", row.otherwise);
    return text;
}

std::vector<std::string> learnedBeside(const std::vector<LearnedCase>& cases,
                                       Recommendation outcome, const std::string& pattern) {
    if (outcome == Recommendation::notEnoughEvidence)
        return {};
    const std::vector<LearnedRow> rows = learn(cases);
    if (std::none_of(rows.begin(), rows.end(), [&](const auto& r) { return r.outcome == outcome; }))
        return {fmt::format("No success rate for \"{}\" in this book yet (needs {} finished jobs).",
                            recommendationName(outcome), fewestCases)};
    std::vector<std::string> lines;
    for (const std::string& wanted : {pattern, std::string()}) {
        LearnedRow row;
        const auto found = std::find_if(rows.begin(), rows.end(), [&](const LearnedRow& r) {
            return r.outcome == outcome && r.pattern == wanted;
        });
        if (found != rows.end())
            row = *found;
        lines.push_back(fmt::format("In this book, \"{}\" {}: {}.", recommendationName(outcome),
                                    wanted.empty() ? "after any evidence" : "after " + wanted,
                                    learnedSentence(row)));
    }
    return lines;
}

} // namespace swarfbook

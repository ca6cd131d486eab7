// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/failed_repairs.h"

#include "base/text.h"
#include "judgement/rules.h"
#include "judgement/suggest.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {
namespace {

bool alike(const DriveFinding& one, const DriveFinding& other) {
    return !one.good() && !other.good() && one.felt.symptom == other.felt.symptom &&
           one.felt.gear == other.felt.gear && one.felt.shift == other.felt.shift;
}

bool anyComplaint(const VisitFindings& f) {
    return !f.codes.empty() || std::any_of(f.drive.begin(), f.drive.end(),
                                           [](const auto& felt) { return !felt.good(); });
}

bool sameComplaint(const VisitFindings& now, const VisitFindings& then) {
    for (const CodeFinding& code : now.codes)
        for (const CodeFinding& before : then.codes)
            if (code.code.text == before.code.text)
                return true;
    for (const DriveFinding& felt : now.drive)
        for (const DriveFinding& before : then.drive)
            if (alike(felt, before))
                return true;
    return !anyComplaint(now);
}

std::string whatCame(const RepairStep& step) {
    if (step.still.empty())
        return "it came back";
    return fmt::format("there was still {}", listed(step.still));
}

FailedRepair failedRepair(const VisitEvidence& visit, const RepairStep& step,
                          const SuggestionModel& model) {
    FailedRepair failed;
    failed.parts = step.parts;
    Evidence before;
    before.now = visit;
    before.now.observations = beforeStep(visit.observations, step);
    before.now.observationNumbers.clear();
    const std::optional<Recommendation> told = dearestOf(step.rungs);
    if (!told || failed.parts.empty()) {
        const Suggestion suggested = suggest(before, model);
        failed.rung = told.value_or(suggested.outcome);
        if (failed.parts.empty() && failed.rung == suggested.outcome)
            failed.parts = partsOf(suggested);
    } else {
        failed.rung = *told;
    }
    const std::string what =
        failed.parts.empty()
            ? fmt::format("What was done (\"{}\")", recommendationName(failed.rung))
            : fmt::format("What was done to {}", listed(failed.parts));
    failed.sentence =
        fmt::format("{}{} did not cure it: {}.", what,
                    visit.date.empty() ? "" : fmt::format(" on {}", visit.date), whatCame(step));
    return failed;
}

} // namespace

std::optional<Recommendation> dearestOf(const std::vector<std::string>& rungs) {
    std::optional<Recommendation> dearest;
    for (const std::string& rung : rungs)
        dearest = std::max(dearest.value_or(Recommendation::outsideTheUnit), outcomeFromName(rung));
    return dearest;
}

bool samePart(const std::string& one, const std::string& other) {
    return lowered(one) == lowered(other);
}

std::vector<std::string> partsOf(const Suggestion& suggestion) {
    std::vector<std::string> parts;
    for (const std::string& which : suggestion.which) {
        const bool named = which.starts_with("solenoid ");
        if (suggestion.outcome == Recommendation::replaceSolenoids)
            parts.push_back("solenoid " + which);
        else if (suggestion.outcome == Recommendation::repairBores && !named)
            parts.push_back("bore " + which);
        else
            parts.push_back(which);
    }
    return parts;
}

std::vector<FailedRepair> failedRepairs(const Evidence& evidence, const VisitFindings& now,
                                        const SuggestionModel& model) {
    std::vector<FailedRepair> failed;
    for (const VisitEvidence& visit : evidence.earlier) {
        const VisitFindings then = visitFindings(visit.observations, model.warmth);
        const bool same = sameComplaint(now, then);
        for (const RepairStep& step : then.repairs) {
            if (step.held == Held::fixed)
                failed.clear(); // later entries do not concern it
            if (step.failed() && same)
                failed.push_back(failedRepair(visit, step, model));
        }
    }
    for (const RepairStep& step : now.repairs)
        if (step.failed())
            failed.push_back(failedRepair(evidence.now, step, model));
    return failed;
}

} // namespace swarfbook

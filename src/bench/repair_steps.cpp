// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/repair_steps.h"

#include "bench/drive_findings.h"

#include <algorithm>

namespace swarfbook {
namespace {

/// The work that an observation records.
struct Done {
    std::string rung;
    std::vector<std::string> parts;
    bool addsUp = false; ///< one of several lines, each of which names other work
};

Done doneBy(const Observation& observation) {
    if (const auto* after = std::get_if<AfterRepair>(&observation))
        return {after->did, after->parts, !after->work.empty()};
    if (const auto* outcome = std::get_if<RepairResult>(&observation))
        return {outcome->did, outcome->parts, false};
    return {};
}

bool ofRepair(const Observation& observation) {
    return seenAfterRepair(observation) || std::holds_alternative<AfterRepair>(observation) ||
           std::holds_alternative<RepairResult>(observation) ||
           std::holds_alternative<Refill>(observation) ||
           std::holds_alternative<LevelCheck>(observation);
}

bool holds(const std::vector<std::string>& names, const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

bool namesAnother(const Done& done, const RepairStep& step) {
    return (!done.rung.empty() && !step.rungs.empty() && !holds(step.rungs, done.rung)) ||
           (!done.parts.empty() && !step.parts.empty() && done.parts != step.parts);
}

void addTo(RepairStep& step, const Done& done) {
    if (!done.addsUp && !done.rung.empty())
        step.rungs.clear();
    if (!done.addsUp && !done.parts.empty())
        step.parts.clear();
    if (!done.rung.empty())
        step.rungs.push_back(done.rung);
    for (const std::string& part : done.parts)
        if (!holds(step.parts, part))
            step.parts.push_back(part);
}

/// Adds the observations to the steps, one after the other.
class Steps {
  public:
    explicit Steps(const WarmthLimits& limits) : limits_(limits) {}

    void add(const Observation& observation, std::size_t place) {
        if (!ofRepair(observation)) {
            foundSince_ = true;
            return;
        }
        if (steps_.empty() || startsAnother(observation)) {
            steps_.emplace_back();
            drive_.clear();
            codes_.clear();
        }
        foundSince_ = false;
        steps_.back().told.push_back(place);
        tell(observation);
        judge(place);
    }

    std::vector<RepairStep> all() { return std::move(steps_); }

  private:
    [[nodiscard]] bool startsAnother(const Observation& observation) const {
        const RepairStep& step = steps_.back();
        if (!step.failed())
            return false;
        const bool doneAgain = std::holds_alternative<AfterRepair>(observation);
        return namesAnother(doneBy(observation), step) ||
               (foundSince_ && (doneAgain || step.held == Held::cameBack));
    }

    void tell(const Observation& observation) {
        RepairStep& step = steps_.back();
        addTo(step, doneBy(observation));
        if (const auto* outcome = std::get_if<RepairResult>(&observation))
            step.held = outcome->held;
        if (const auto* drive = std::get_if<RoadTest>(&observation))
            addFelt(driveFinding(*drive, limits_, true), drive_);
        if (const auto* codes = std::get_if<Codes>(&observation))
            addCodes(*codes, codes_);
    }

    void judge(std::size_t place) {
        RepairStep& step = steps_.back();
        step.still.clear();
        for (const DriveFinding& felt : drive_)
            if (!felt.good())
                step.still.push_back(inPlainWords(felt));
        for (const CodeFinding& found : codes_)
            if (found.code.family != CodeFamily::pointer)
                step.still.push_back("code " + found.code.text);
        if (step.held != Held::cameBack && step.still.empty())
            step.failedAt.reset();
        else if (!step.failedAt)
            step.failedAt = place;
    }

    WarmthLimits limits_;
    std::vector<RepairStep> steps_;
    std::vector<DriveFinding> drive_; ///< after the latest step
    std::vector<CodeFinding> codes_;
    bool foundSince_ = false; ///< something at the bench or on the road, since the latest step was
                              ///< entered
};

} // namespace

bool seenAfterRepair(const Observation& observation) {
    const auto* codes = std::get_if<Codes>(&observation);
    return std::holds_alternative<RoadTest>(observation) ||
           (codes != nullptr && codes->when == CodesWhen::after);
}

std::vector<RepairStep> repairSteps(const std::vector<Observation>& observations,
                                    const WarmthLimits& limits) {
    Steps steps(limits);
    for (std::size_t place = 0; place < observations.size(); ++place)
        steps.add(observations[place], place);
    return steps.all();
}

std::vector<Observation> beforeStep(const std::vector<Observation>& observations,
                                    const RepairStep& step) {
    std::vector<Observation> before;
    const std::size_t end = step.failedAt.value_or(observations.size());
    for (std::size_t place = 0; place < end; ++place)
        if (std::find(step.told.begin(), step.told.end(), place) == step.told.end())
            before.push_back(observations[place]);
    return before;
}

} // namespace swarfbook

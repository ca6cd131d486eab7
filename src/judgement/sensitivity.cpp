// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/sensitivity.h"

#include "bench/state_of_work.h"
#include "judgement/reason_sources.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <tuple>

namespace swarfbook {
namespace {

bool differs(const Suggestion& a, const Suggestion& b) {
    return a.outcome != b.outcome || a.which != b.which || a.converter != b.converter ||
           a.cooler != b.cooler || a.doNotDrive != b.doNotDrive;
}

/// Another step, another part, or a stop. Adding converter or cooler to the same step does not
/// count.
bool leadsElsewhere(const Suggestion& a, const Suggestion& b) {
    return a.outcome != b.outcome || a.which != b.which || a.doNotDrive != b.doNotDrive;
}

/// Indices of the observations that the two strongest reasons rest on.
std::set<std::size_t> weighty(const Evidence& evidence, const SuggestionModel& model,
                              const Suggestion& s) {
    std::set<std::size_t> indices;
    for (const Reason& reason : s.all)
        if (std::find(s.strongestReasons.begin(), s.strongestReasons.end(), reason.sentence) !=
            s.strongestReasons.end())
            for (const std::size_t i : sourcesOf(reason, evidence.now, model).observations)
                indices.insert(i);
    return indices;
}

/// More for evidence that the suggestion rests on; less for a finding that nobody had reason to
/// expect.
double causeToAsk(const Counterfactual& flip, bool weighty, const SuggestionModel& model) {
    if (flip.unexpected)
        return model.weight("turn_unexpected");
    return weighty ? model.weight("turn_rested_on") : 1.0;
}

/// More for a test that decides than for one that only raises doubt or adds to the job; per minute
/// of work.
double worthOf(const DecisiveChange& turn, bool sameOutcome, const SuggestionModel& model) {
    const double decisive = sameOutcome ? model.weight("turn_within_the_job")
                            : turn.outcome == Recommendation::notEnoughEvidence
                                ? model.weight("turn_to_more_tests")
                                : model.weight("turn_to_a_repair");
    return decisive / std::max(1.0, turn.minutes);
}

/// Evidence whose observations can be exchanged without copying its photos again.
class Trial {
  public:
    Trial(const Evidence& evidence, const SuggestionModel& model)
        : evidence_(evidence), model_(model) {}
    Suggestion with(std::vector<Observation> observations) {
        evidence_.now.observations = std::move(observations);
        return suggest(evidence_, model_);
    }

  private:
    Evidence evidence_;
    const SuggestionModel& model_;
};

std::string decidingRule(const Suggestion& s) {
    for (const Reason& reason : s.all)
        if (reason.supports)
            return reason.rule;
    return {};
}

std::int64_t numberOf(const Evidence& evidence, const Counterfactual& flip) {
    const auto& numbers = evidence.now.observationNumbers;
    return flip.untested || flip.index >= numbers.size() ? 0 : numbers[flip.index];
}

struct Found {
    double worth = 0.0;
    DecisiveChange turn;
};

/// The observation it needs.
const Observation& observedBy(const std::vector<Observation>& recorded,
                              const Counterfactual& flip) {
    return flip.untested ? *flip.instead : recorded[flip.index];
}

/// What is tried, and how far the unit is taken apart by now.
struct Trials {
    std::vector<Counterfactual> flips;
    StateOfWork state = StateOfWork::panOn;
    bool valveBodyOff = false;
};

Trials trialsOf(const Evidence& evidence, const SuggestionModel& model) {
    const auto& recorded = evidence.now.observations;
    const Facts facts = factsOf(evidence, model);
    Trials trials{counterfactuals(recorded, model), stateOfWork(recorded, facts.debris->inspected)};
    for (Counterfactual& flip : untestedBothWays(recorded, facts, model))
        trials.flips.push_back(std::move(flip));
    trials.valveBodyOff = trials.state == StateOfWork::panOff &&
                          std::any_of(recorded.begin(), recorded.end(), needsValveBodyOff);
    return trials;
}

/// Bench time of the test, and of what has to be taken off first.
double minutesOf(const Counterfactual& flip, const Observation& observed, const Trials& trials,
                 const SuggestionModel& model) {
    const auto minutes = [&](std::string_view kind) {
        const auto found = model.minutes.find(std::string(kind));
        return found == model.minutes.end() ? 30.0 : found->second;
    };
    const bool panLeft = trials.state != StateOfWork::panOff && flip.kind == "debris";
    return minutes(flip.kind) + (panLeft ? minutes("take-pan-off") : 0.0) +
           (needsValveBodyOff(observed) && !trials.valveBodyOff ? minutes("take-valve-body-off")
                                                                : 0.0);
}

/// If two records of one thing give the same answer, it is named once.
void keepOnce(std::vector<Found>& found) {
    std::set<std::pair<std::string, std::string>> named;
    std::erase_if(found, [&](const Found& one) {
        return !named.emplace(one.turn.observation, one.turn.headline).second;
    });
}

/// First observations that can be made now, the cheapest first; then recorded ones that cannot be
/// made again; last findings that nobody had reason to expect.
void addTurns(const Evidence& evidence, const SuggestionModel& model, const Trials& trials,
              Suggestion& s) {
    Trial trial(evidence, model);
    const auto& recorded = evidence.now.observations;
    const std::set<std::size_t> held = weighty(evidence, model, s);
    std::vector<Found> found;
    for (const Counterfactual& flip : trials.flips) {
        const Suggestion then = trial.with(observationsWith(recorded, flip));
        if (!leadsElsewhere(s, then))
            continue;
        const Observation& observed = observedBy(recorded, flip);
        const DecisiveChange turn{flip.label,
                                  then.outcome,
                                  headline(then),
                                  decidingRule(then),
                                  flip.untested,
                                  minutesOf(flip, observed, trials, model),
                                  flip.unexpected,
                                  flip.untested || canBeObserved(observed, trials.state),
                                  numberOf(evidence, flip)};
        const bool rests = !flip.untested && held.contains(flip.index);
        found.push_back(
            {causeToAsk(flip, rests, model) * worthOf(turn, turn.outcome == s.outcome, model),
             turn});
    }
    const auto order = [](const Found& one) {
        return std::tuple(one.turn.unexpected, !one.turn.reachable, one.turn.minutes, -one.worth);
    };
    std::stable_sort(found.begin(), found.end(),
                     [&](const Found& a, const Found& b) { return order(a) < order(b); });
    keepOnce(found);
    for (const auto& entry : found)
        s.turns.push_back(entry.turn);
}

void addReadingBorders(const Evidence& evidence, const SuggestionModel& model, Suggestion& s) {
    Trial trial(evidence, model);
    for (const Counterfactual& flip : readingsAtTheirLimits(evidence.now.observations, model)) {
        const Suggestion then = trial.with(observationsWith(evidence.now.observations, flip));
        if (differs(s, then))
            s.nearBorders.push_back({flip.label, then.outcome, headline(then), decidingRule(then),
                                     false, 0.0, false, true, numberOf(evidence, flip)});
    }
}

void addPhotoBorders(const Evidence& evidence, const SuggestionModel& model, Suggestion& s) {
    if (evidence.now.samples.empty())
        return;
    const auto at = [&](ReadAt readAt, const char* what) {
        const Suggestion then = suggest(evidence, model, readAt);
        if (differs(s, then))
            s.nearBorders.push_back({fmt::format("photos read at the {}", what), then.outcome,
                                     headline(then), decidingRule(then), false, 0.0, false, true,
                                     0});
    };
    at({.counts = End::low}, "lower end of the counts' 95 % limits");
    at({.counts = End::high}, "upper end of the counts' 95 % limits");
    at({.sizes = End::high}, "upper end of the sizes' 95 % limits");
    at({.coat = End::low}, "lower end of the coat's 95 % limits");
    at({.coat = End::high}, "upper end of the coat's 95 % limits");
}

} // namespace

std::vector<Observation> observationsWith(const std::vector<Observation>& recorded,
                                          const Counterfactual& flip) {
    std::vector<Observation> all = recorded;
    if (flip.untested)
        all.push_back(*flip.instead);
    else if (flip.instead)
        all[flip.index] = *flip.instead;
    else
        all.erase(all.begin() + static_cast<std::ptrdiff_t>(flip.index));
    return all;
}

Suggestion suggestWithTurns(const Evidence& evidence, const SuggestionModel& model) {
    Suggestion s = suggest(evidence, model);
    addTurns(evidence, model, trialsOf(evidence, model), s);
    addReadingBorders(evidence, model, s);
    addPhotoBorders(evidence, model, s);
    if (const std::size_t all = evidence.now.observations.size(); all > mostTried)
        s.notTried = fmt::format(
            "Only the newest {} observations of this visit were tried the other way; {} not.",
            mostTried,
            all == mostTried + 1 ? "the one before them was"
                                 : fmt::format("the {} before them were", all - mostTried));
    return s;
}

} // namespace swarfbook

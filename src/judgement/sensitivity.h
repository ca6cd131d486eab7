// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/facts.h"
#include "judgement/suggest.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace swarfbook {

/// The suggestion together with what would change it: each recorded observation is taken the other
/// way, and each test that was not made is answered both ways, one at a time, through suggest().
/// Readings and photo figures are also taken at both ends of their uncertainty; if that turns the
/// suggestion, `nearBorders` says so. If a visit has more observations than are tried, `notTried`
/// says so.
///
/// Names only changes that lead to another step, other parts or a stop, and no test that is
/// impossible in the present state of the work. The cheapest come first (bench minutes of the
/// model, including access); of equally long ones first those that the suggestion rests on; then
/// recorded observations that cannot be made again now; last findings that nobody had reason to
/// expect. Pure. Checked: tests/judgement/sensitivity_test.cpp (brute force: each turn named is
/// real, and no tried flip that turns the outcome is left out).
Suggestion suggestWithTurns(const Evidence& evidence, const SuggestionModel& model);

/// One observation changed: its description, and the observations as they would then be.
struct Counterfactual {
    std::string label;
    std::string_view kind;
    std::size_t index = 0; ///< of the recorded observation; meaningless when `untested`
    bool untested = false;
    /// What replaces it (untested: what is added to the others); nothing: it is left out.
    std::optional<Observation> instead;
    bool unexpected = false; ///< nobody had reason to expect it, such as a chip in a clean pan
};
/// The observations as they would then be.
std::vector<Observation> observationsWith(const std::vector<Observation>& recorded,
                                          const Counterfactual& flip);

/// Only this many of a visit's newest observations are tried the other way, so that the work does
/// not grow with the square of their number. Our own choice: far more than a visit has.
inline constexpr std::size_t mostTried = 100;

/// Every recorded observation (the newest mostTried), taken the other way.
std::vector<Counterfactual> counterfactuals(const std::vector<Observation>& recorded,
                                            const SuggestionModel& model);
/// Every test that is not among them, answered both ways. `facts` say which parts the codes name.
std::vector<Counterfactual> untestedBothWays(const std::vector<Observation>& recorded,
                                             const Facts& facts, const SuggestionModel& model);
/// Every reading (of the newest mostTried observations) at both ends of its uncertainty.
std::vector<Counterfactual> readingsAtTheirLimits(const std::vector<Observation>& recorded,
                                                  const SuggestionModel& model);

} // namespace swarfbook

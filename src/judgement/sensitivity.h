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
/// Readings and photo figures are also taken at both ends of their own limits; where that turns the
/// suggestion, `nearBorders` says so. Where a visit has more observations than are tried,
/// `notTried` says so.
///
/// Only what leads to another step, other parts or a stop is named, and no test that the present
/// state of the work cannot reach. The cheapest come first (bench minutes of the model, with what
/// has to be taken off for it), of equally long ones those of what the suggestion rests on; then
/// what was recorded and cannot be observed again now; last what nobody had cause to expect.
/// Pure. Checked: tests/judgement/sensitivity_test.cpp (brute force: each turn named is real, and
/// no tried flip that turns the outcome is left out).
Suggestion suggestWithTurns(const Evidence& evidence, const SuggestionModel& model);

/// One observation changed: what is said of it, and the observations as they would then be.
struct Counterfactual {
    std::string label;
    std::string_view kind;
    std::size_t index = 0; ///< of the recorded observation; meaningless when `untested`
    bool untested = false;
    /// What stands in its place (untested: what joins the others); nothing: it is left out.
    std::optional<Observation> instead;
    bool unexpected = false; ///< nobody had cause to expect it, such as a chip in a clean pan
};
/// The observations as they would then be.
std::vector<Observation> observationsWith(const std::vector<Observation>& recorded,
                                          const Counterfactual& flip);

/// Only this many of a visit's newest observations are tried the other way, so that the work does
/// not grow with the square of their number. Our own choice: far more than a visit has.
inline constexpr std::size_t mostTried = 100;

/// Every recorded observation (the newest mostTried) the other way.
std::vector<Counterfactual> counterfactuals(const std::vector<Observation>& recorded,
                                            const SuggestionModel& model);
/// Every test that is not among them, answered both ways. `facts` say which parts the codes name.
std::vector<Counterfactual> untestedBothWays(const std::vector<Observation>& recorded,
                                             const Facts& facts, const SuggestionModel& model);
/// Every reading (of the newest mostTried observations) at both ends of how far it may be off.
std::vector<Counterfactual> readingsAtTheirLimits(const std::vector<Observation>& recorded,
                                                  const SuggestionModel& model);

} // namespace swarfbook

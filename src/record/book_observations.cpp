// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "base/text.h"
#include "record/book.h"
#include "record/calendar.h"
#include "record/database.h"
#include "record/entry_text.h"
#include "record/judged_case.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <stdexcept>

namespace swarfbook {
namespace {

/// Only an entry of the same visit that nothing has corrected yet can be corrected.
void checkCorrected(const std::vector<StoredObservation>& all, std::int64_t corrected) {
    const bool there =
        std::any_of(all.begin(), all.end(), [&](const auto& one) { return one.id == corrected; });
    if (!there)
        throw UsageError(fmt::format("There is no observation {} at this visit. swarfbook observe "
                                     "--visit N without a kind shows them with their numbers.",
                                     corrected));
    const auto by = std::find_if(all.begin(), all.end(),
                                 [&](const auto& one) { return one.corrects == corrected; });
    if (by != all.end())
        throw UsageError(fmt::format("Observation {} was corrected before, by number {}: correct "
                                     "that one.",
                                     corrected, by->id));
}

} // namespace

StoredObservation Book::addObservation(const StoredObservation& given) {
    if (given.kind.empty() || !nlohmann::json::accept(given.json))
        throw std::logic_error("an observation needs a kind and JSON");
    StoredObservation observation = given;
    observation.by = checkedLine("The name of who observed it", given.by);
    observation.recordedAt = nowUtc();
    BookTransaction transaction = begin();
    (void)visit(observation.visitId);
    if (observation.corrects)
        checkCorrected(observations(observation.visitId), *observation.corrects);
    database_
        ->prepare("INSERT INTO observation (visit_id, kind, json, recorded_at, observed_by, "
                  "corrects) VALUES (?, ?, ?, ?, ?, ?)")
        .with(observation.visitId, observation.kind, observation.json, observation.recordedAt,
              observation.by, observation.corrects)
        .run();
    observation.id = database_->lastInsertedId();
    forgetJudgedCase(*database_, observation.visitId);
    transaction.commit();
    return observation;
}

std::vector<StoredObservation> Book::observations(std::int64_t visitId) const {
    Statement query =
        database_->prepare("SELECT id, visit_id, kind, json, recorded_at, observed_by, corrects "
                           "FROM observation WHERE visit_id = ? ORDER BY id");
    query.with(visitId);
    std::vector<StoredObservation> all;
    while (query.step())
        all.push_back({query.integer(0), query.integer(1), query.text(2), query.text(3),
                       query.text(4), query.text(5), query.maybeInteger(6)});
    return all;
}

std::set<std::int64_t> Book::visitsWithObserved(const std::string& text) const {
    // SQLite's lower() folds ASCII alone, as lowered() does.
    Statement query = database_->prepare(
        "SELECT DISTINCT visit_id FROM observation WHERE instr(lower(json), ?) > 0 AND id NOT IN "
        "(SELECT corrects FROM observation WHERE corrects IS NOT NULL)");
    query.with(lowered(text));
    std::set<std::int64_t> visits;
    while (query.step())
        visits.insert(query.integer(0));
    return visits;
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/book.h"
#include "record/calendar.h"
#include "record/database.h"

#include <nlohmann/json.hpp>

#include <stdexcept>

namespace swarfbook {

StoredObservation Book::addObservation(const StoredObservation& given) {
    if (given.kind.empty() || !nlohmann::json::accept(given.json))
        throw std::logic_error("an observation needs a kind and JSON");
    StoredObservation observation = given;
    observation.recordedAt = nowUtc();
    BookTransaction transaction = begin();
    (void)visit(observation.visitId);
    database_
        ->prepare("INSERT INTO observation (visit_id, kind, json, recorded_at) "
                  "VALUES (?, ?, ?, ?)")
        .with(observation.visitId, observation.kind, observation.json, observation.recordedAt)
        .run();
    observation.id = database_->lastInsertedId();
    transaction.commit();
    return observation;
}

std::vector<StoredObservation> Book::observations(std::int64_t visitId) const {
    Statement query = database_->prepare("SELECT id, visit_id, kind, json, recorded_at "
                                         "FROM observation WHERE visit_id = ? ORDER BY id");
    query.with(visitId);
    std::vector<StoredObservation> all;
    while (query.step())
        all.push_back(
            {query.integer(0), query.integer(1), query.text(2), query.text(3), query.text(4)});
    return all;
}

} // namespace swarfbook

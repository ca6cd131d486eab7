// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/book.h"
#include "record/calendar.h"
#include "record/database.h"
#include "record/judged_case.h"

#include <fmt/format.h>

namespace swarfbook {
namespace {

std::vector<Correction> correctionsFrom(Statement& query) {
    std::vector<Correction> all;
    while (query.step())
        all.push_back({query.text(0), query.text(1)});
    return all;
}

} // namespace

std::vector<Correction> Book::correctionsOfVisit(std::int64_t id) const {
    Statement query = database_->prepare(
        "SELECT before, corrected_at FROM correction WHERE visit_id = ? ORDER BY id");
    return correctionsFrom(query.with(id));
}

std::vector<Correction> Book::correctionsOfPhoto(std::int64_t id) const {
    Statement query = database_->prepare(
        "SELECT before, corrected_at FROM correction WHERE photo_id = ? ORDER BY id");
    return correctionsFrom(query.with(id));
}

std::vector<Correction> Book::correctionsOfVehicle(std::int64_t id) const {
    Statement query = database_->prepare(
        "SELECT before, done_at FROM vehicle_correction WHERE vehicle_id = ? ORDER BY id");
    return correctionsFrom(query.with(id));
}

void Book::movePhoto(const std::string& sha256, std::int64_t visitId, Place place) {
    BookTransaction transaction = begin();
    (void)visit(visitId);
    const auto photo = photoBySha256(sha256);
    if (!photo)
        throw UsageError(fmt::format("There is no photo {} in the book to move.", sha256));
    database_
        ->prepare("INSERT INTO correction (photo_id, before, corrected_at) "
                  "SELECT id, json_object('visit', visit_id, 'place', place), ? "
                  "FROM photo WHERE sha256 = ?")
        .with(nowUtc(), sha256)
        .run();
    database_->prepare("UPDATE photo SET visit_id = ?, place = ? WHERE sha256 = ?")
        .with(visitId, placeName(place), sha256)
        .run();
    for (const std::int64_t changed : {photo->visitId, visitId})
        forgetJudgedCase(*database_, changed);
    transaction.commit();
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "base/sha256.h"
#include "record/book.h"
#include "record/calendar.h"
#include "record/database.h"
#include "record/entry_text.h"
#include "record/keep_original.h"
#include "record/photo_store.h"
#include "record/stored_values.h"

#include <fmt/format.h>

#include <span>

namespace swarfbook {
namespace {

constexpr std::string_view selectWorkPhoto =
    "SELECT work_photo.id, observation_id, moment, sha256, file_name, added_at FROM work_photo ";

WorkMoment momentFrom(const StoredRow& checked, const std::string& text) {
    if (text == workMomentWord(WorkMoment::before))
        return WorkMoment::before;
    if (text != workMomentWord(WorkMoment::after))
        throwDamaged(checked.where, checked.entry, "whether it shows the work before or after");
    return WorkMoment::after;
}

WorkPhoto workPhotoFrom(const Statement& row, const std::string& where) {
    const StoredRow checked{where, fmt::format("photo of work {}", row.integer(0))};
    WorkPhoto photo;
    photo.id = row.integer(0);
    photo.observationId = row.integer(1);
    photo.moment = momentFrom(checked, row.text(2));
    photo.sha256 = checked.sha256(row.text(3));
    photo.fileName = row.text(4);
    photo.addedAt = checked.moment(row.text(5));
    return photo;
}

} // namespace

std::string_view workMomentWord(WorkMoment moment) {
    return moment == WorkMoment::before ? "before" : "after";
}

WorkPhoto Book::addWorkPhoto(const NewWorkPhoto& photo, std::span<const std::byte> bytes) {
    const std::string sha256 = sha256Hex(bytes);
    const std::string_view extension = photoExtension(bytes), moment = workMomentWord(photo.moment);
    BookTransaction transaction = begin();
    Statement there = database_->prepare("SELECT 1 FROM observation WHERE id = ?");
    if (!there.with(photo.observationId).step())
        throw UsageError(fmt::format("There is no observation {} in the book that a photo of work "
                                     "could belong to. swarfbook observe --visit N without a kind "
                                     "shows those of a visit.",
                                     photo.observationId));
    if (!folder_.empty())
        keepOriginal(folder_, *database_, {sha256, std::string(extension)}, bytes);
    database_
        ->prepare("INSERT INTO work_photo (observation_id, moment, sha256, extension, byte_count, "
                  "file_name, added_at) VALUES (?, ?, ?, ?, ?, ?, ?) "
                  "ON CONFLICT (sha256, observation_id, moment) DO NOTHING")
        .with(photo.observationId, moment, sha256, extension,
              static_cast<std::int64_t>(bytes.size()), readableText(photo.fileName), nowUtc())
        .run();
    Statement query =
        database_->prepare(std::string(selectWorkPhoto)
                               .append("WHERE sha256 = ? AND observation_id = ? AND moment = ?"));
    query.with(sha256, photo.observationId, moment).step();
    WorkPhoto kept = workPhotoFrom(query, database_->where());
    transaction.commit();
    return kept;
}

std::vector<WorkPhoto> Book::workPhotos(std::int64_t visitId) const {
    Statement query = database_->prepare(
        std::string(selectWorkPhoto)
            .append("JOIN observation ON observation.id = observation_id WHERE visit_id = ? "
                    "ORDER BY observation_id, moment DESC, work_photo.id"));
    query.with(visitId);
    std::vector<WorkPhoto> all;
    while (query.step())
        all.push_back(workPhotoFrom(query, database_->where()));
    return all;
}

} // namespace swarfbook

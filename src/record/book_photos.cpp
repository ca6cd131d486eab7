// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "base/sha256.h"
#include "record/book.h"
#include "record/calendar.h"
#include "record/database.h"
#include "record/entry_text.h"
#include "record/finding_text.h"
#include "record/judged_case.h"
#include "record/keep_original.h"
#include "record/photo_store.h"
#include "record/piece_corrections.h"
#include "record/standing_corrections.h"
#include "record/stored_values.h"
#include "record/withdrawn.h"

#include <fmt/format.h>

#include <span>

namespace swarfbook {
namespace {

// A photo with its newest finding.
constexpr std::string_view selectPhoto =
    "SELECT photo.id, visit_id, place, sha256, file_name, sampling, added_at, options, "
    "program_version, measured_at, measurement, mapping "
    "FROM photo JOIN finding ON finding.id = "
    "(SELECT max(id) FROM finding AS one WHERE one.photo_id = photo.id) ";

Statement photoQuery(Database& database, std::string_view rest) {
    return database.prepare(std::string(selectPhoto).append(rest));
}

/// Replaces a finding that cannot be read, after reporting it.
Measurement damagedFinding(const Book& book, const StoredPhoto& photo) {
    const std::string again =
        fmt::format("swarfbook visit measure {} measures the photo again.", photo.visitId);
    book.tell(fmt::format("The finding of {} (visit {}, place {}) in the book is damaged and "
                          "was left out. {}",
                          photo.fileName, photo.visitId, placeWord(photo.place), again));
    Measurement none;
    none.photo.file = photo.fileName;
    none.photo.sha256 = photo.sha256;
    none.place = photo.place;
    none.refusal = Refusal{RefusalReason::findingDamaged,
                           "The finding of this photo in the book is damaged.", again};
    return none;
}

Measurement findingOrDamage(const Book& book, const StoredPhoto& photo, const FindingText& text) {
    try {
        return findingFromText(text, "the book");
    } catch (const ToolError&) {
        return damagedFinding(book, photo);
    }
}

StoredPhoto photoFrom(const Statement& row, const Book& book, const std::string& where) {
    const StoredRow checked{where, fmt::format("photo {}", row.integer(0))};
    StoredPhoto photo;
    photo.id = row.integer(0);
    photo.visitId = row.integer(1);
    photo.place = checked.place(row.text(2));
    photo.sha256 = checked.sha256(row.text(3));
    photo.fileName = row.text(4);
    photo.sampling = row.text(5);
    photo.addedAt = checked.moment(row.text(6));
    photo.options = row.text(7);
    photo.programVersion = row.text(8);
    photo.measuredAt = row.text(9);
    photo.measurement = findingOrDamage(book, photo, {row.text(10), row.text(11)});
    return photo;
}

[[noreturn]] void throwElsewhere(const StoredPhoto& known, const NewPhoto& wanted) {
    if (known.visitId != wanted.visitId)
        throw UsageError(
            fmt::format("{} is already in this book, at visit {}, place {}. A photo shows one "
                        "visit only: check the file and the visit, or move it here with --move.",
                        wanted.fileName, known.visitId, placeWord(known.place)));
    throw UsageError(fmt::format("{} is already at this visit, as place {}. Give that --place, "
                                 "check the file, or move it here with --move.",
                                 wanted.fileName, placeWord(known.place)));
}

} // namespace

PhotoAdded Book::addPhoto(const NewPhoto& given, std::span<const std::byte> bytes,
                          const Measurement& measurement) {
    NewPhoto photo = given;
    photo.fileName = readableText(given.fileName);
    photo.sampling = checkedLine("The sampling", given.sampling, 200);
    const std::string sha256 = sha256Hex(bytes);
    if (measurement.photo.sha256 != sha256)
        throw ToolError(fmt::format("{} changed while it was being measured. Nothing was kept. "
                                    "Copy the photo over completely, then add it again.",
                                    photo.fileName));
    const std::string_view extension = photoExtension(bytes);
    BookTransaction transaction = begin();
    (void)visit(photo.visitId);
    const auto known = photoBySha256(sha256);
    if (known && (known->visitId != photo.visitId || known->place != photo.place))
        throwElsewhere(*known, photo);
    if (known)
        for (const Withdrawal& withdrawn : withdrawnPhotos(known->visitId))
            if (withdrawn.number == known->id)
                throw UsageError(fmt::format("{} is photo {} of the book and was withdrawn: {}. "
                                             "swarfbook photo withdraw {} --undo brings it back.",
                                             photo.fileName, known->id, withdrawn.reason.why,
                                             known->id));
    // A known photo's file comes back here if it was lost.
    if (!folder_.empty())
        keepOriginal(folder_, *database_, {sha256, std::string(extension)}, bytes);
    if (known)
        return {*known, true};
    database_
        ->prepare("INSERT INTO photo (visit_id, place, sha256, extension, byte_count, file_name, "
                  "sampling, added_at) VALUES (?, ?, ?, ?, ?, ?, ?, ?)")
        .with(photo.visitId, placeName(photo.place), sha256, extension,
              static_cast<std::int64_t>(bytes.size()), photo.fileName, photo.sampling, nowUtc())
        .run();
    addFinding(database_->lastInsertedId(), measurement, photo.options, photo.programVersion);
    const auto stored = photoBySha256(sha256);
    transaction.commit();
    return {stored.value(), false};
}

StoredFinding Book::addFinding(std::int64_t photoId, const Measurement& measurement,
                               const std::string& options, const std::string& programVersion) {
    const FindingText text = findingText(measurement);
    StoredFinding finding{0, photoId, options, programVersion, nowUtc(), measurement};
    BookTransaction transaction = begin();
    Statement insert =
        database_->prepare("INSERT INTO finding (photo_id, measurement, mapping, options, "
                           "program_version, measured_at) "
                           "VALUES (?, ?, nullif(?, ''), ?, ?, ?)");
    insert
        .with(photoId, text.measurement, text.mapping, options, programVersion, finding.measuredAt)
        .run();
    finding.id = database_->lastInsertedId();
    Statement visit = database_->prepare("SELECT visit_id FROM photo WHERE id = ?");
    if (visit.with(photoId).step())
        forgetJudgedCase(*database_, visit.integer(0));
    transaction.commit();
    return finding;
}

std::vector<StoredPhoto> Book::photos(std::int64_t visitId) const {
    Statement query =
        photoQuery(*database_, fmt::format("WHERE visit_id = ? AND photo.id NOT IN {} "
                                           "ORDER BY photo.id",
                                           withdrawnPhotoNumbers));
    query.with(visitId);
    std::vector<StoredPhoto> all;
    while (query.step())
        all.push_back(photoFrom(query, *this, database_->where()));
    for (StoredPhoto& photo : all) {
        photo.regrouped =
            applyRegroupings(photo.measurement, standingRegroupings(*database_, photo.id));
        photo.corrected =
            applyCorrections(photo.measurement, standingCorrections(*database_, photo.id));
    }
    return all;
}

StoredPhoto Book::photo(std::int64_t id) const {
    Statement query = database_->prepare("SELECT visit_id FROM photo WHERE id = ?");
    if (query.with(id).step())
        for (StoredPhoto& one : photos(query.integer(0)))
            if (one.id == id)
                return std::move(one);
    throw UsageError(fmt::format("There is no photo {} in the book, or it was withdrawn. swarfbook "
                                 "visit show N shows a visit's photos and their numbers.",
                                 id));
}

std::map<Place, std::size_t> Book::photoCounts(std::int64_t visitId) const {
    Statement query = database_->prepare(
        fmt::format("SELECT place, count(*) FROM photo WHERE visit_id = ? AND id "
                    "NOT IN {} GROUP BY place",
                    withdrawnPhotoNumbers));
    query.with(visitId);
    std::map<Place, std::size_t> counts;
    while (query.step())
        counts[placeFromName(query.text(0))] = static_cast<std::size_t>(query.integer(1));
    return counts;
}

std::map<std::int64_t, std::size_t> Book::photosOfVisits() const {
    Statement query = database_->prepare(
        fmt::format("SELECT visit_id, count(*) FROM photo WHERE id NOT IN {} GROUP BY visit_id",
                    withdrawnPhotoNumbers));
    std::map<std::int64_t, std::size_t> counts;
    while (query.step())
        counts[query.integer(0)] = static_cast<std::size_t>(query.integer(1));
    return counts;
}

std::optional<StoredPhoto> Book::photoBySha256(const std::string& sha256) const {
    Statement query = photoQuery(*database_, "WHERE sha256 = ?");
    if (!query.with(sha256).step())
        return std::nullopt;
    return photoFrom(query, *this, database_->where());
}

std::vector<StoredFinding> Book::findings(std::int64_t photoId) const {
    Statement photos = photoQuery(*database_, "WHERE photo.id = ?");
    if (!photos.with(photoId).step())
        return {};
    const StoredPhoto photo = photoFrom(photos, *this, database_->where());
    Statement query = database_->prepare("SELECT id, photo_id, options, program_version, "
                                         "measured_at, measurement, mapping FROM finding "
                                         "WHERE photo_id = ? ORDER BY id DESC");
    query.with(photoId);
    std::vector<StoredFinding> all;
    while (query.step())
        all.push_back({query.integer(0), query.integer(1), query.text(2), query.text(3),
                       query.text(4),
                       findingOrDamage(*this, photo, {query.text(5), query.text(6)})});
    return all;
}

} // namespace swarfbook

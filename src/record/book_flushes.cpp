// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/book.h"
#include "record/calendar.h"
#include "record/database.h"
#include "record/entry_text.h"
#include "record/finding_text.h"
#include "record/flush_of_visit.h"
#include "record/judged_case.h"
#include "record/stored_values.h"
#include "record/withdrawn.h"

#include <fmt/format.h>

#include <stdexcept>

namespace swarfbook {
namespace {

constexpr std::size_t longestPart = 100;

FlushStep stepFrom(const StoredRow& checked, const std::string& where, const std::string& name) {
    try {
        return flushStepFromName(name);
    } catch (const std::invalid_argument&) {
        throwDamaged(where, checked.entry, "a step of it");
    }
}

StoredFlush flushFrom(const Statement& row, const std::string& where) {
    const StoredRow checked{where, fmt::format("flush {}", row.integer(0))};
    StoredFlush flush;
    flush.id = row.integer(0);
    flush.visitId = row.integer(1);
    flush.part = checked.key(row.text(2), longestPart);
    if (const std::string tray = row.text(3); !tray.empty())
        flush.traySha256 = checked.sha256(tray);
    flush.startedAt = checked.moment(row.text(5));
    if (!flush.traySha256.empty())
        flush.tray = cleanTrayFromText(row.text(4));
    return flush;
}

/// The photo's newest row says to which flush it belongs; its oldest row gives the order.
std::vector<StoredPass> passesOf(Database& database, const StoredFlush& flush) {
    const StoredRow checked{database.where(), fmt::format("flush {}", flush.id)};
    Statement rows = database.prepare(fmt::format(
        "SELECT pass.photo_id, step, recorded_at FROM flush_pass AS pass JOIN photo ON photo.id = "
        "pass.photo_id WHERE flush_id = ? AND pass.id = (SELECT max(id) FROM flush_pass AS newest "
        "WHERE newest.photo_id = pass.photo_id) AND visit_id = ? AND place = 'tray' AND "
        "photo.id NOT IN {} ORDER BY (SELECT min(id) FROM flush_pass AS first WHERE "
        "first.photo_id = pass.photo_id)",
        withdrawnPhotoNumbers));
    rows.with(flush.id, flush.visitId);
    std::vector<StoredPass> passes;
    while (rows.step())
        passes.push_back({rows.integer(0), stepFrom(checked, database.where(), rows.text(1)),
                          checked.moment(rows.text(2))});
    return passes;
}

constexpr std::string_view selectFlush =
    "SELECT id, visit_id, part, tray_sha256, tray_finding, started_at FROM flush ";

} // namespace

StoredFlush Book::startFlush(const NewFlush& given) {
    if (given.traySha256.empty() == given.tray.has_value())
        throw std::logic_error("a clean tray is a photo and what it shows");
    const std::string part = checkedLine("The part", given.part, longestPart);
    if (part.empty())
        throw UsageError("Say which part is flushed: --part \"solenoid A\".");
    const std::string tray = given.tray ? findingText(*given.tray).measurement : "";
    BookTransaction transaction = begin();
    (void)visit(given.visitId);
    database_
        ->prepare("INSERT INTO flush (visit_id, part, tray_sha256, tray_finding, started_at) "
                  "VALUES (?, ?, nullif(?, ''), nullif(?, ''), ?)")
        .with(given.visitId, part, given.traySha256, tray, nowUtc())
        .run();
    StoredFlush started = flush(database_->lastInsertedId());
    transaction.commit();
    return started;
}

void Book::addFlushPass(std::int64_t flushId, std::int64_t photoId, FlushStep step) {
    BookTransaction transaction = begin();
    const StoredFlush to = flush(flushId);
    const StoredPhoto shown = photo(photoId);
    if (shown.visitId != to.visitId || shown.place != Place::tray)
        throw UsageError(
            fmt::format("Photo {} is not a photo of the tray at visit {}, so it shows no "
                        "pass of flush {}.",
                        photoId, to.visitId, flushId));
    database_
        ->prepare("INSERT INTO flush_pass (flush_id, photo_id, step, recorded_at) VALUES "
                  "(?, ?, ?, ?)")
        .with(flushId, photoId, flushStepName(step), nowUtc())
        .run();
    forgetJudgedCase(*database_, to.visitId);
    transaction.commit();
}

std::vector<StoredFlush> Book::flushes(std::int64_t visitId) const {
    Statement rows = database_->prepare(fmt::format(
        "{}WHERE visit_id = ? AND id NOT IN {} ORDER BY id", selectFlush, withdrawnFlushNumbers));
    rows.with(visitId);
    std::vector<StoredFlush> all;
    while (rows.step())
        all.push_back(flushFrom(rows, database_->where()));
    for (StoredFlush& flush : all)
        flush.passes = passesOf(*database_, flush);
    return all;
}

StoredFlush Book::flush(std::int64_t id) const {
    Statement row = database_->prepare(std::string(selectFlush).append("WHERE id = ?"));
    if (!row.with(id).step())
        throw UsageError(fmt::format("There is no flush {} in the book. swarfbook flush show "
                                     "--visit N shows those of a visit and their numbers.",
                                     id));
    StoredFlush flush = flushFrom(row, database_->where());
    (void)visit(flush.visitId);
    for (const Withdrawal& withdrawn : withdrawnFlushes(flush.visitId))
        if (withdrawn.number == id)
            throw UsageError(
                withdrawalSentence("flush", fmt::format("{}", id), withdrawn.reason, withdrawn.at));
    flush.passes = passesOf(*database_, flush);
    return flush;
}

} // namespace swarfbook

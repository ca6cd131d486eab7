// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/book.h"
#include "record/calendar.h"
#include "record/database.h"
#include "record/entry_text.h"
#include "record/judged_case.h"
#include "record/withdrawn.h"

#include <fmt/format.h>

namespace swarfbook {
namespace {

/// What can be withdrawn: the words for it and its column.
struct KindOfEntry {
    std::string_view word, column;
};
constexpr KindOfEntry visitEntries{"visit", "visit_id"}, photoEntries{"photo", "photo_id"};

/// The act that says how the entry stands: 1 withdrawn, 0 not.
bool standsWithdrawn(Database& database, const KindOfEntry& kind, std::int64_t id) {
    Statement newest = database.prepare(fmt::format(
        "SELECT withdrawn FROM withdrawal WHERE {} = ? ORDER BY id DESC LIMIT 1", kind.column));
    return newest.with(id).step() && newest.integer(0) == 1;
}

void requireThere(Database& database, const KindOfEntry& kind, std::int64_t id) {
    Statement there = database.prepare(fmt::format("SELECT 1 FROM {} WHERE id = ?", kind.word));
    if (!there.with(id).step())
        throw UsageError(fmt::format("There is no {0} {1} in the book. swarfbook visit list LABEL "
                                     "and swarfbook visit show N show the numbers.",
                                     kind.word, id));
}

struct Act {
    std::int64_t id = 0;
    bool withdraw = true;
};

void keepAct(Database& database, const KindOfEntry& kind, Act act, const ChangeReason& given) {
    const ChangeReason reason{checkedLine("The name", given.by),
                              checkedNote("The reason", given.why)};
    requireThere(database, kind, act.id);
    if (act.withdraw && reason.why.empty())
        throw UsageError(
            fmt::format("Say why the {} is withdrawn: --why \"wrong vehicle\".", kind.word));
    if (standsWithdrawn(database, kind, act.id) == act.withdraw)
        throw UsageError(act.withdraw
                             ? fmt::format("The {0} {1} is withdrawn already. swarfbook {0} "
                                           "withdraw {1} --undo brings it back.",
                                           kind.word, act.id)
                             : fmt::format("The {} {} is not withdrawn, so there is nothing to "
                                           "bring back.",
                                           kind.word, act.id));
    database
        .prepare(fmt::format("INSERT INTO withdrawal ({}, withdrawn, why, done_by, done_at) "
                             "VALUES (?, ?, ?, ?, ?)",
                             kind.column))
        .with(act.id, act.withdraw, reason.why, reason.by, nowUtc())
        .run();
}

std::vector<Withdrawal> withdrawalsFrom(Statement& rows) {
    std::vector<Withdrawal> all;
    while (rows.step())
        all.push_back({rows.integer(0), {rows.text(1), rows.text(2)}, rows.text(3)});
    return all;
}

std::int64_t visitOfPhoto(Database& database, std::int64_t photo) {
    Statement visit = database.prepare("SELECT visit_id FROM photo WHERE id = ?");
    return visit.with(photo).step() ? visit.integer(0) : 0;
}

} // namespace

void Book::withdrawVisit(std::int64_t id, const ChangeReason& reason) {
    BookTransaction transaction = begin();
    keepAct(*database_, visitEntries, {id, true}, reason);
    forgetJudgedCase(*database_, id);
    transaction.commit();
}

void Book::bringBackVisit(std::int64_t id, const ChangeReason& reason) {
    BookTransaction transaction = begin();
    keepAct(*database_, visitEntries, {id, false}, reason);
    forgetJudgedCase(*database_, id);
    transaction.commit();
}

void Book::withdrawPhoto(std::int64_t id, const ChangeReason& reason) {
    BookTransaction transaction = begin();
    keepAct(*database_, photoEntries, {id, true}, reason);
    forgetJudgedCase(*database_, visitOfPhoto(*database_, id));
    transaction.commit();
}

void Book::bringBackPhoto(std::int64_t id, const ChangeReason& reason) {
    BookTransaction transaction = begin();
    keepAct(*database_, photoEntries, {id, false}, reason);
    forgetJudgedCase(*database_, visitOfPhoto(*database_, id));
    transaction.commit();
}

std::vector<Withdrawal> Book::withdrawnVisits(std::int64_t vehicleId) const {
    Statement rows = database_->prepare(fmt::format(
        "SELECT visit.id, done_by, why, done_at FROM visit JOIN withdrawal ON withdrawal.id = "
        "(SELECT max(id) FROM withdrawal WHERE visit_id = visit.id) "
        "WHERE vehicle_id = ? AND visit.id IN {} ORDER BY visit.id",
        withdrawnVisitNumbers));
    rows.with(vehicleId);
    return withdrawalsFrom(rows);
}

std::vector<Withdrawal> Book::withdrawnPhotos(std::int64_t visitId) const {
    Statement rows = database_->prepare(fmt::format(
        "SELECT photo.id, done_by, why, done_at FROM photo JOIN withdrawal ON withdrawal.id = "
        "(SELECT max(id) FROM withdrawal WHERE photo_id = photo.id) "
        "WHERE photo.visit_id = ? AND photo.id IN {} ORDER BY photo.id",
        withdrawnPhotoNumbers));
    rows.with(visitId);
    return withdrawalsFrom(rows);
}

} // namespace swarfbook

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
#include <fmt/ranges.h>

namespace swarfbook {
namespace {

/// What can be withdrawn: the word for it, its table, the table of withdrawals with the column that
/// refers to it, the command, what shows the numbers, and a reason as an example.
struct KindOfEntry {
    std::string_view word, entries, withdrawals, column, command, shown, example;
};
constexpr std::string_view visitsShown =
    "swarfbook visit list LABEL and swarfbook visit show N show the numbers.";
constexpr KindOfEntry vehicleEntries{
    "vehicle",    "vehicle",          "vehicle_withdrawal",
    "vehicle_id", "vehicle withdraw", "swarfbook vehicle list shows all vehicles.",
    "added twice"};
constexpr KindOfEntry visitEntries{"visit",          "visit",     "withdrawal",   "visit_id",
                                   "visit withdraw", visitsShown, "wrong vehicle"};
constexpr KindOfEntry photoEntries{"photo",          "photo",     "withdrawal",         "photo_id",
                                   "photo withdraw", visitsShown, "a thumb on the card"};
constexpr KindOfEntry flushEntries{
    "flush",
    "flush",
    "flush_withdrawal",
    "flush_id",
    "flush withdraw",
    "swarfbook flush show --visit N shows those of a visit and their numbers.",
    "wrong part"};
constexpr KindOfEntry checkEntries{"reading",
                                   "thing_check",
                                   "check_withdrawal",
                                   "check_id",
                                   "check --withdraw",
                                   "swarfbook check --list shows the numbers.",
                                   "another thing was read"};

struct Act {
    std::int64_t id = 0;
    bool withdraw = true;
};

/// The act that says how the entry stands: 1 withdrawn, 0 not.
bool standsWithdrawn(Database& database, const KindOfEntry& kind, std::int64_t id) {
    Statement newest =
        database.prepare(fmt::format("SELECT withdrawn FROM {} WHERE {} = ? ORDER BY id DESC "
                                     "LIMIT 1",
                                     kind.withdrawals, kind.column));
    return newest.with(id).step() && newest.integer(0) == 1;
}

/// The entry's number, or a vehicle's label, as the command takes it.
std::string nameOf(Database& database, const KindOfEntry& kind, std::int64_t id) {
    if (kind.word != vehicleEntries.word)
        return fmt::format("{}", id);
    Statement label = database.prepare("SELECT label FROM vehicle WHERE id = ?");
    return label.with(id).step() ? fmt::format("\"{}\"", label.text(0)) : fmt::format("{}", id);
}

void requireThere(Database& database, const KindOfEntry& kind, std::int64_t id) {
    Statement there = database.prepare(fmt::format("SELECT 1 FROM {} WHERE id = ?", kind.entries));
    if (!there.with(id).step())
        throw UsageError(
            fmt::format("There is no {} {} in the book. {}", kind.word, id, kind.shown));
}

/// Refuses an act that changes nothing.
void requireChange(Database& database, const KindOfEntry& kind, Act act) {
    if (standsWithdrawn(database, kind, act.id) != act.withdraw)
        return;
    const std::string name = nameOf(database, kind, act.id);
    throw UsageError(act.withdraw ? fmt::format("The {} {} is withdrawn already. swarfbook {} {} "
                                                "--undo brings it back.",
                                                kind.word, name, kind.command, name)
                                  : fmt::format("The {} {} is not withdrawn, so there is nothing "
                                                "to bring back.",
                                                kind.word, name));
}

void keepAct(Database& database, const KindOfEntry& kind, Act act, const ChangeReason& given) {
    const ChangeReason reason{checkedLine("The name", given.by),
                              checkedNote("The reason", given.why)};
    requireThere(database, kind, act.id);
    if (act.withdraw && reason.why.empty())
        throw UsageError(
            fmt::format("Say why the {} is withdrawn: --why \"{}\".", kind.word, kind.example));
    requireChange(database, kind, act);
    database
        .prepare(fmt::format("INSERT INTO {} ({}, withdrawn, why, done_by, done_at) "
                             "VALUES (?, ?, ?, ?, ?)",
                             kind.withdrawals, kind.column))
        .with(act.id, act.withdraw, reason.why, reason.by, nowUtc())
        .run();
}

/// A vehicle with visits stays, as they would be left without one.
void requireNoVisits(const std::string& label, const std::vector<Visit>& visits) {
    if (visits.empty())
        return;
    std::vector<std::int64_t> numbers;
    for (const Visit& visit : visits)
        numbers.push_back(visit.id);
    throw UsageError(fmt::format(
        "{0} cannot be withdrawn while it has visits: {1}. Move each to its own vehicle: swarfbook "
        "visit correct {2} --vehicle LABEL. Or withdraw each: swarfbook visit withdraw {2} --why "
        "TEXT.",
        label, fmt::join(numbers, ", "), numbers.front()));
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

/// A flush with passes stays, as their photos would be left without one.
void requireNoPasses(const StoredFlush& flush) {
    if (flush.passes.empty())
        return;
    std::vector<std::int64_t> numbers;
    for (const StoredPass& pass : flush.passes)
        numbers.push_back(pass.photoId);
    throw UsageError(fmt::format(
        "Flush {} cannot be withdrawn while it has passes: the photos {}. Add each photo to its "
        "own "
        "flush: swarfbook flush add --flush N --step STEP PHOTO. Or withdraw each: swarfbook photo "
        "withdraw {} --why TEXT.",
        flush.id, fmt::join(numbers, ", "), numbers.front()));
}

/// A photo of a flush that is withdrawn cannot count again alone.
void requireFlushOfPhoto(Database& database, std::int64_t photo) {
    Statement of = database.prepare("SELECT flush_id FROM flush_pass WHERE photo_id = ? "
                                    "ORDER BY id DESC LIMIT 1");
    if (of.with(photo).step() && standsWithdrawn(database, flushEntries, of.integer(0)))
        throw UsageError(fmt::format("Photo {0} shows a pass of flush {1}, which is withdrawn. "
                                     "Bring the flush back first: swarfbook flush withdraw {1} "
                                     "--undo.",
                                     photo, of.integer(0)));
}

/// A visit of a vehicle that is withdrawn cannot count again alone.
void requireVehicleOfVisit(Database& database, std::int64_t visit) {
    Statement of = database.prepare("SELECT vehicle_id FROM visit WHERE id = ?");
    if (!of.with(visit).step() || !standsWithdrawn(database, vehicleEntries, of.integer(0)))
        return;
    const std::string name = nameOf(database, vehicleEntries, of.integer(0));
    throw UsageError(fmt::format("Visit {} is of the vehicle {}, which is withdrawn. Bring the "
                                 "vehicle back first: swarfbook vehicle withdraw {} --undo.",
                                 visit, name, name));
}

} // namespace

void Book::withdrawVehicle(std::int64_t id, const ChangeReason& reason) {
    BookTransaction transaction = begin();
    requireThere(*database_, vehicleEntries, id);
    requireNoVisits(nameOf(*database_, vehicleEntries, id), visits(id));
    keepAct(*database_, vehicleEntries, {id, true}, reason);
    transaction.commit();
}

void Book::bringBackVehicle(std::int64_t id, const ChangeReason& reason) {
    BookTransaction transaction = begin();
    keepAct(*database_, vehicleEntries, {id, false}, reason);
    transaction.commit();
}

void Book::withdrawFlush(std::int64_t id, const ChangeReason& reason) {
    BookTransaction transaction = begin();
    requireThere(*database_, flushEntries, id);
    if (!standsWithdrawn(*database_, flushEntries, id))
        requireNoPasses(flush(id));
    keepAct(*database_, flushEntries, {id, true}, reason);
    transaction.commit();
}

void Book::bringBackFlush(std::int64_t id, const ChangeReason& reason) {
    BookTransaction transaction = begin();
    keepAct(*database_, flushEntries, {id, false}, reason);
    transaction.commit();
}

void Book::withdrawCheck(std::int64_t id, const ChangeReason& reason) {
    BookTransaction transaction = begin();
    keepAct(*database_, checkEntries, {id, true}, reason);
    transaction.commit();
}

void Book::bringBackCheck(std::int64_t id, const ChangeReason& reason) {
    BookTransaction transaction = begin();
    keepAct(*database_, checkEntries, {id, false}, reason);
    transaction.commit();
}

void Book::withdrawVisit(std::int64_t id, const ChangeReason& reason) {
    BookTransaction transaction = begin();
    keepAct(*database_, visitEntries, {id, true}, reason);
    forgetJudgedCase(*database_, id);
    transaction.commit();
}

void Book::bringBackVisit(std::int64_t id, const ChangeReason& reason) {
    BookTransaction transaction = begin();
    requireVehicleOfVisit(*database_, id);
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
    requireFlushOfPhoto(*database_, id);
    keepAct(*database_, photoEntries, {id, false}, reason);
    forgetJudgedCase(*database_, visitOfPhoto(*database_, id));
    transaction.commit();
}

std::vector<WithdrawnVehicle> Book::withdrawnVehicles() const {
    // From the few that were ever withdrawn, as every command asks this.
    Statement rows = database_->prepare(
        "SELECT vehicle.id, label, plate, vin, note, unit, done_by, why, done_at FROM "
        "vehicle_withdrawal AS act CROSS JOIN vehicle ON vehicle.id = act.vehicle_id WHERE "
        "withdrawn = 1 AND act.id = (SELECT max(id) FROM vehicle_withdrawal WHERE vehicle_id = "
        "act.vehicle_id) ORDER BY label");
    std::vector<WithdrawnVehicle> all;
    while (rows.step())
        all.push_back({{rows.integer(0), rows.text(1), rows.text(2), rows.text(3), rows.text(4),
                        rows.text(5)},
                       {rows.text(6), rows.text(7)},
                       rows.text(8)});
    return all;
}

std::vector<Withdrawal> Book::withdrawnFlushes(std::int64_t visitId) const {
    Statement rows = database_->prepare(
        fmt::format("SELECT flush.id, done_by, why, done_at FROM flush JOIN flush_withdrawal AS "
                    "act ON act.id = (SELECT max(id) FROM flush_withdrawal WHERE flush_id = "
                    "flush.id) WHERE visit_id = ? AND flush.id IN {} ORDER BY flush.id",
                    withdrawnFlushNumbers));
    rows.with(visitId);
    return withdrawalsFrom(rows);
}

std::vector<Withdrawal> Book::withdrawnChecks() const {
    Statement rows = database_->prepare(
        fmt::format("SELECT check_id, done_by, why, done_at FROM check_withdrawal AS newest WHERE "
                    "id = (SELECT max(id) FROM check_withdrawal WHERE check_id = newest.check_id) "
                    "AND check_id IN {} ORDER BY check_id",
                    withdrawnCheckNumbers));
    return withdrawalsFrom(rows);
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

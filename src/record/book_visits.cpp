// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/book.h"
#include "record/calendar.h"
#include "record/database.h"
#include "record/entry_text.h"
#include "record/judged_case.h"
#include "record/stored_values.h"
#include "record/withdrawn.h"

#include <fmt/format.h>

#include <cmath>

namespace swarfbook {
namespace {

constexpr std::string_view selectVisit =
    "SELECT id, vehicle_id, date, odometer_km, odometer_replaced, complaint, looked_by, "
    "since_clean_km, last_clean FROM visit ";

Statement visitQuery(Database& database, std::string_view rest) {
    return database.prepare(std::string(selectVisit).append(rest));
}

Visit visitFrom(const Statement& row, const Database& database) {
    const StoredRow checked{database.where(), fmt::format("visit {}", row.integer(0))};
    Visit visit;
    visit.id = row.integer(0);
    visit.vehicleId = row.integer(1);
    visit.date = checked.date(row.text(2));
    visit.odometerKm = checked.distanceKm(row.real(3));
    visit.odometerReplaced = row.integer(4) != 0;
    visit.complaint = row.text(5);
    visit.lookedBy = row.text(6);
    visit.sinceCleanKm = checked.distanceKm(row.real(7));
    visit.lastClean = checked.dateOrEmpty(row.text(8));
    return visit;
}

void checkDistance(std::string_view what, const std::optional<double>& km) {
    if (!km)
        return;
    if (!std::isfinite(*km) || *km < 0.0)
        throw UsageError(fmt::format("{} cannot be {}. Give it as driven, 0 or more.", what, *km));
    if (*km > farthestKm)
        throw UsageError(fmt::format("{} of {:.0f} km is more than any road vehicle has gone. "
                                     "Check the digits and the unit.",
                                     what, *km));
}

Visit checkedVisit(const Visit& given) {
    Visit visit = given;
    const std::string today = todayHere();
    visit.date = checkedDate(given.date, today);
    checkDistance("The odometer", given.odometerKm);
    checkDistance("The distance since the last clean", given.sinceCleanKm);
    if (given.odometerKm && given.sinceCleanKm && *given.sinceCleanKm > *given.odometerKm &&
        !given.odometerReplaced)
        throw UsageError(fmt::format("The distance since the last clean ({:.0f} km) is more than "
                                     "the odometer shows ({:.0f} km). Check both.",
                                     *given.sinceCleanKm, *given.odometerKm));
    if (!given.lastClean.empty())
        visit.lastClean = checkedDate(given.lastClean, today);
    if (visit.lastClean > visit.date)
        throw UsageError(fmt::format("The last clean ({}) cannot be after the visit ({}).",
                                     visit.lastClean, visit.date));
    visit.complaint = checkedNote("The complaint", given.complaint);
    visit.lookedBy = checkedLine("The name", given.lookedBy);
    return visit;
}

void checkOrder(const Visit& visit, const std::vector<Visit>& others, bool allowEarlier) {
    if (!others.empty() && visit.date < others.back().date && !allowEarlier)
        throw UsageError(fmt::format("The last visit of this vehicle (number {}) was on {}, after "
                                     "{}. Check the date; --earlier enters a visit from before.",
                                     others.back().id, others.back().date, visit.date));
}

/// Whether another visit came before this one. Visits of one day are ordered by number; a visit
/// without a number yet comes last.
bool isBefore(const Visit& other, const Visit& visit) {
    return other.date != visit.date ? other.date < visit.date
                                    : visit.id == 0 || other.id < visit.id;
}

/// Checks the odometer against the nearest visits before and after that have a reading.
void checkOdometer(const Visit& visit, const std::vector<Visit>& others) {
    if (!visit.odometerKm)
        return;
    const Visit* before = nullptr;
    const Visit* after = nullptr;
    bool replacedAfter = false;
    for (const Visit& other : others) {
        if (!isBefore(other, visit))
            replacedAfter = replacedAfter || (after == nullptr && other.odometerReplaced);
        if (!other.odometerKm)
            continue;
        if (isBefore(other, visit))
            before = &other;
        else if (after == nullptr)
            after = &other;
    }
    if (before != nullptr && *visit.odometerKm < *before->odometerKm && !visit.odometerReplaced)
        throw UsageError(fmt::format(
            "The odometer showed {:.0f} km at the visit of {} (number {}), so {:.0f} km cannot be "
            "right for {}. Check it; --odometer-replaced says that it started again from zero.",
            *before->odometerKm, before->date, before->id, *visit.odometerKm, visit.date));
    if (after != nullptr && *visit.odometerKm > *after->odometerKm && !replacedAfter)
        throw UsageError(fmt::format(
            "The odometer showed {:.0f} km at the later visit of {} (number {}), so {:.0f} km "
            "cannot be right for {}. Check it.",
            *after->odometerKm, after->date, after->id, *visit.odometerKm, visit.date));
}

/// The distance since a clean that was a visit itself, when both odometers are known.
void fillSinceClean(Visit& visit, const std::vector<Visit>& others) {
    if (visit.sinceCleanKm || visit.lastClean.empty() || !visit.odometerKm ||
        visit.odometerReplaced)
        return;
    const Visit* clean = nullptr;
    for (const Visit& other : others) {
        if (other.date == visit.lastClean && other.date < visit.date)
            clean = &other;
        else if (other.date > visit.lastClean && isBefore(other, visit) && other.odometerReplaced)
            clean = nullptr;
    }
    if (clean != nullptr && clean->odometerKm)
        visit.sinceCleanKm = *visit.odometerKm - *clean->odometerKm;
}

/// Checks the visit against the vehicle's other visits and fills in what follows from them.
void fitAmong(Visit& visit, const std::vector<Visit>& others, bool allowEarlier) {
    checkOrder(visit, others, allowEarlier);
    checkOdometer(visit, others);
    fillSinceClean(visit, others);
}

} // namespace

Visit Book::addVisit(const Visit& given, bool allowEarlier) {
    Visit visit = checkedVisit(given);
    BookTransaction transaction = begin();
    (void)vehicle(visit.vehicleId);
    fitAmong(visit, visits(visit.vehicleId), allowEarlier);
    database_
        ->prepare("INSERT INTO visit (vehicle_id, date, odometer_km, odometer_replaced, complaint, "
                  "looked_by, since_clean_km, last_clean, added_at) "
                  "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)")
        .with(visit.vehicleId, visit.date, visit.odometerKm, visit.odometerReplaced,
              visit.complaint, visit.lookedBy, visit.sinceCleanKm, visit.lastClean, nowUtc())
        .run();
    visit.id = database_->lastInsertedId();
    transaction.commit();
    return visit;
}

Visit Book::correctVisit(const Visit& given, bool allowEarlier) {
    Visit visit = checkedVisit(given);
    BookTransaction transaction = begin();
    const Visit before = this->visit(visit.id);
    const bool moved = visit.vehicleId != before.vehicleId;
    (void)vehicle(visit.vehicleId);
    std::vector<Visit> others = visits(visit.vehicleId);
    std::erase_if(others, [&](const Visit& other) { return other.id == visit.id; });
    // It may keep its date, whatever came after it.
    fitAmong(visit, others, allowEarlier || (visit.date == before.date && !moved));
    database_
        ->prepare("INSERT INTO correction (visit_id, before, corrected_at) "
                  "SELECT id, json_object('date', date, 'odometer_km', odometer_km, "
                  "'odometer_replaced', odometer_replaced, 'complaint', complaint, 'looked_by', "
                  "looked_by, 'since_clean_km', since_clean_km, 'last_clean', last_clean, "
                  "'vehicle', (SELECT label FROM vehicle WHERE vehicle.id = vehicle_id)), ? "
                  "FROM visit WHERE id = ?")
        .with(nowUtc(), visit.id)
        .run();
    database_
        ->prepare(
            "UPDATE visit SET date = ?, odometer_km = ?, odometer_replaced = ?, "
            "complaint = ?, looked_by = ?, since_clean_km = ?, last_clean = ?, vehicle_id = ? "
            "WHERE id = ?")
        .with(visit.date, visit.odometerKm, visit.odometerReplaced, visit.complaint, visit.lookedBy,
              visit.sinceCleanKm, visit.lastClean, visit.vehicleId, visit.id)
        .run();
    forgetJudgedCase(*database_, visit.id);
    transaction.commit();
    return visit;
}

std::vector<Visit> Book::visits(std::int64_t vehicleId) const {
    Statement query = visitQuery(
        *database_, fmt::format("WHERE vehicle_id = ? AND id NOT IN {} ORDER BY date, id",
                                withdrawnVisitNumbers));
    query.with(vehicleId);
    std::vector<Visit> all;
    while (query.step())
        all.push_back(visitFrom(query, *database_));
    return all;
}

std::vector<Visit> Book::allVisits() const {
    Statement query =
        visitQuery(*database_, fmt::format("WHERE id NOT IN {} ORDER BY date DESC, id DESC",
                                           withdrawnVisitNumbers));
    std::vector<Visit> all;
    while (query.step())
        all.push_back(visitFrom(query, *database_));
    return all;
}

Visit Book::visit(std::int64_t id) const {
    Statement query = visitQuery(*database_, "WHERE id = ?");
    if (!query.with(id).step())
        throw UsageError(fmt::format("There is no visit {} in the book. swarfbook visit list LABEL "
                                     "shows a vehicle's visits and their numbers.",
                                     id));
    const Visit found = visitFrom(query, *database_);
    for (const Withdrawal& withdrawn : withdrawnVisits(found.vehicleId))
        if (withdrawn.number == id)
            throw UsageError(
                withdrawalSentence("visit", fmt::format("{}", id), withdrawn.reason, withdrawn.at));
    return found;
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "base/near_words.h"
#include "record/book.h"
#include "record/calendar.h"
#include "record/database.h"
#include "record/entry_text.h"
#include "record/judged_case.h"
#include "record/withdrawn.h"

#include <fmt/format.h>

namespace swarfbook {
namespace {

constexpr std::string_view selectVehicle = "SELECT id, label, plate, vin, note, unit FROM vehicle ";

Statement vehicleQuery(Database& database, std::string_view rest) {
    return database.prepare(std::string(selectVehicle).append(rest));
}

Vehicle vehicleFrom(const Statement& row) {
    Vehicle vehicle;
    vehicle.id = row.integer(0);
    vehicle.label = row.text(1);
    vehicle.plate = row.text(2);
    vehicle.vin = row.text(3);
    vehicle.note = row.text(4);
    vehicle.unit = row.text(5);
    return vehicle;
}

Vehicle checkedVehicle(const Vehicle& given) {
    Vehicle vehicle;
    vehicle.label = checkedLine("The label", given.label, 60);
    if (vehicle.label.empty())
        throw UsageError("A vehicle needs a label to be found by, such as DEMO-03.");
    vehicle.plate = checkedLine("The plate", given.plate, 30);
    vehicle.vin = checkedLine("The VIN", given.vin, 30);
    vehicle.note = checkedNote("The note", given.note);
    vehicle.unit = checkedLine("The unit's name", given.unit);
    return vehicle;
}

[[noreturn]] void throwNoSuchVehicle(std::int64_t id) {
    throw UsageError(fmt::format("There is no vehicle with the number {} in the book.", id));
}

/// A sentence on how this vehicle was withdrawn and what brings it back; "" when it stands.
std::string howWithdrawn(const Book& book, std::int64_t id) {
    for (const auto& [vehicle, reason, at] : book.withdrawnVehicles())
        if (vehicle.id == id)
            return withdrawalSentence("vehicle", vehicle.label, reason, at);
    return "";
}

void requireStanding(const Book& book, const Vehicle& vehicle) {
    if (const std::string how = howWithdrawn(book, vehicle.id); !how.empty())
        throw UsageError(how);
}

/// Refuses the label of another vehicle, withdrawn or not.
void requireFreeLabel(const Book& book, Database& database, const Vehicle& vehicle) {
    Statement same = vehicleQuery(database, "WHERE label = ? AND id <> ?");
    if (!same.with(vehicle.label, vehicle.id).step())
        return;
    const Vehicle other = vehicleFrom(same);
    const std::string how = howWithdrawn(book, other.id);
    throw UsageError(how.empty()
                         ? fmt::format("The book already has a vehicle {}. Use it as it is, or "
                                       "choose another label.",
                                       other.label)
                         : fmt::format("The book already has that label. {} What it says can then "
                                       "be put right: swarfbook vehicle correct \"{}\". Or choose "
                                       "another label.",
                                       how, other.label));
}

} // namespace

Vehicle Book::addVehicle(const Vehicle& given) {
    Vehicle vehicle = checkedVehicle(given);
    BookTransaction transaction = begin();
    requireFreeLabel(*this, *database_, vehicle);
    database_
        ->prepare("INSERT INTO vehicle (label, plate, vin, note, unit, added_at) "
                  "VALUES (?, ?, ?, ?, ?, ?)")
        .with(vehicle.label, vehicle.plate, vehicle.vin, vehicle.note, vehicle.unit, nowUtc())
        .run();
    vehicle.id = database_->lastInsertedId();
    transaction.commit();
    return vehicle;
}

Vehicle Book::nameUnit(const std::string& label, const std::string& given) {
    const std::string unit = checkedLine("The unit's name", given);
    if (unit.empty())
        throw UsageError("Say which unit it is: --unit NAME.");
    BookTransaction transaction = begin();
    Vehicle vehicle = vehicleByLabel(label);
    if (!vehicle.unit.empty() && vehicle.unit != unit)
        throw UsageError(fmt::format("{} has the unit {} in the book already. When another was put "
                                     "in, add it as a vehicle of its own, such as \"{} second "
                                     "unit\".",
                                     vehicle.label, vehicle.unit, vehicle.label));
    database_->prepare("UPDATE vehicle SET unit = ? WHERE id = ?").with(unit, vehicle.id).run();
    transaction.commit();
    vehicle.unit = unit;
    return vehicle;
}

Vehicle Book::correctVehicle(const Vehicle& given, const ChangeReason& reason) {
    const Vehicle vehicle = [&] {
        Vehicle checked = checkedVehicle(given);
        checked.id = given.id;
        return checked;
    }();
    BookTransaction transaction = begin();
    if (!vehicleQuery(*database_, "WHERE id = ?").with(vehicle.id).step())
        throwNoSuchVehicle(vehicle.id);
    requireFreeLabel(*this, *database_, vehicle);
    database_
        ->prepare("INSERT INTO vehicle_correction (vehicle_id, before, why, done_by, done_at) "
                  "SELECT id, json_object('label', label, 'plate', plate, 'vin', vin, 'note', "
                  "note, 'unit', unit), ?, ?, ? FROM vehicle WHERE id = ?")
        .with(checkedNote("The reason", reason.why), checkedLine("The name", reason.by), nowUtc(),
              vehicle.id)
        .run();
    database_
        ->prepare("UPDATE vehicle SET label = ?, plate = ?, vin = ?, note = ?, unit = ? "
                  "WHERE id = ?")
        .with(vehicle.label, vehicle.plate, vehicle.vin, vehicle.note, vehicle.unit, vehicle.id)
        .run();
    for (const Visit& visit : visits(vehicle.id)) // the judgement depends on the unit's chart
        forgetJudgedCase(*database_, visit.id);
    transaction.commit();
    return vehicle;
}

std::vector<Vehicle> Book::vehicles() const {
    Statement query = vehicleQuery(
        *database_, fmt::format("WHERE id NOT IN {} ORDER BY label", withdrawnVehicleNumbers));
    std::vector<Vehicle> all;
    while (query.step())
        all.push_back(vehicleFrom(query));
    return all;
}

std::vector<VehicleInShort> Book::vehiclesInShort() const {
    // In the order of the labels' index: nothing is sorted.
    Statement query = database_->prepare(
        fmt::format("SELECT id, label, plate, vin, note, unit, "
                    "(SELECT count(*) FROM visit WHERE vehicle_id = vehicle.id AND id NOT IN {0}), "
                    "coalesce((SELECT max(date) FROM visit WHERE vehicle_id = vehicle.id AND id "
                    "NOT IN {0}), '') FROM vehicle WHERE id NOT IN {1} ORDER BY label",
                    withdrawnVisitNumbers, withdrawnVehicleNumbers));
    std::vector<VehicleInShort> all;
    all.reserve(static_cast<std::size_t>(database_->number("SELECT count(*) FROM vehicle")));
    while (query.step())
        all.push_back(
            {vehicleFrom(query), static_cast<std::size_t>(query.integer(6)), query.text(7)});
    return all;
}

std::int64_t Book::vehicleNumber(const std::string& given) const {
    const std::string label = checkedLine("The label", given);
    Statement query = vehicleQuery(*database_, "WHERE label = ?");
    if (query.with(label).step())
        return query.integer(0);
    std::vector<std::string> known;
    for (const Vehicle& vehicle : vehicles())
        known.push_back(vehicle.label);
    const std::string near = didYouMean(label, known);
    throw UsageError(
        fmt::format("There is no vehicle \"{}\" in the book. {} A new one is added "
                    "with: swarfbook vehicle add LABEL.",
                    label, near.empty() ? "swarfbook vehicle list shows all vehicles." : near));
}

Vehicle Book::vehicleByLabel(const std::string& label) const {
    return vehicle(vehicleNumber(label));
}

Vehicle Book::vehicle(std::int64_t id) const {
    Statement query = vehicleQuery(*database_, "WHERE id = ?");
    if (!query.with(id).step())
        throwNoSuchVehicle(id);
    const Vehicle found = vehicleFrom(query);
    requireStanding(*this, found);
    return found;
}

std::optional<std::int64_t> Book::vehicleLastUsed() const {
    Statement query = database_->prepare(
        fmt::format("SELECT visit.vehicle_id FROM ("
                    "SELECT * FROM (SELECT added_at AS moment, id AS visit_id FROM visit "
                    "WHERE id NOT IN {0} ORDER BY id DESC LIMIT 1) UNION ALL "
                    "SELECT * FROM (SELECT recorded_at, visit_id FROM observation "
                    "WHERE visit_id NOT IN {0} ORDER BY id DESC LIMIT 1) UNION ALL "
                    "SELECT * FROM (SELECT added_at, visit_id FROM photo "
                    "WHERE visit_id NOT IN {0} ORDER BY id DESC LIMIT 1)"
                    ") AS used JOIN visit ON visit.id = used.visit_id "
                    "ORDER BY used.moment DESC, used.visit_id DESC LIMIT 1",
                    withdrawnVisitNumbers));
    if (!query.step())
        return std::nullopt;
    return query.integer(0);
}

} // namespace swarfbook

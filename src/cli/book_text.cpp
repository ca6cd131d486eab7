// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/shown_units.h"
#include "cli/book_output.h"
#include "cli/text_table.h"
#include "entry/finding_words.h"
#include "entry/work_photo_words.h"
#include "record/evidence_of_visit.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <set>
#include <utility>

namespace swarfbook::cli {
namespace {

std::string kilometres(const std::optional<double>& km) {
    return km ? distanceWords(*km) : "not known";
}

/// "magnet 1, pan 2"
std::string photosByPlace(const Book& book, std::int64_t visitId) {
    std::vector<std::string> parts;
    for (const auto& [place, count] : book.photoCounts(visitId))
        parts.push_back(fmt::format("{} {}", placeWord(place), count));
    return parts.empty() ? "none" : fmt::format("{}", fmt::join(parts, ", "));
}

std::string photoTable(const std::vector<StoredPhoto>& photos) {
    std::vector<std::vector<std::string>> rows{{"photo", "place", "file", "finding", "sampling"}};
    for (const StoredPhoto& photo : photos)
        rows.push_back({fmt::format("{}", photo.id), std::string(placeWord(photo.place)),
                        photo.fileName, findingInShort(photo.measurement), orDash(photo.sampling)});
    return textTable(std::move(rows));
}

/// What was observed, and its photos of work.
std::string observationCell(const Book& book, const StoredObservation& stored,
                            const std::vector<WorkPhoto>& photos) {
    const auto readable = observationIfReadable(book, stored);
    const std::string words = workPhotoWords(photos, stored.id);
    return (readable ? describe(*readable) : "damaged, cannot be read") +
           (words.empty() ? "" : " (" + words + ")");
}

std::string observationTable(const Book& book, const std::vector<StoredObservation>& observations,
                             const std::vector<WorkPhoto>& photos) {
    std::set<std::int64_t> corrected;
    for (const StoredObservation& observation : observations)
        if (observation.corrects)
            corrected.insert(*observation.corrects);
    std::vector<std::vector<std::string>> rows{{"number", "recorded", "by", "observation"}};
    for (const StoredObservation& observation : observations) {
        rows.push_back({fmt::format("{}", observation.id), observation.recordedAt,
                        orDash(observation.by),
                        (corrected.contains(observation.id) ? "corrected: " : "") +
                            observationCell(book, observation, photos)});
    }
    return textTable(std::move(rows));
}

std::string withdrawnVehicleLines(const Book& book) {
    std::string lines;
    for (const WithdrawnVehicle& one : book.withdrawnVehicles())
        lines += withdrawnLine("vehicle " + one.vehicle.label, one.reason, one.at);
    return lines.empty() ? "" : "\n" + lines;
}

} // namespace

std::string withdrawnLine(std::string_view what, const ChangeReason& reason,
                          const std::string& at) {
    return fmt::format("Withdrawn: {} ({}{}: {})\n", what, dateWords(at),
                       reason.by.empty() ? "" : " by " + reason.by, reason.why);
}

std::string withdrawnLines(std::string_view what, const std::vector<Withdrawal>& all) {
    std::string lines;
    for (const Withdrawal& one : all)
        lines += withdrawnLine(fmt::format("{} {}", what, one.number), one.reason, one.at);
    return lines.empty() ? "" : "\n" + lines;
}

std::string vehicleListText(const Book& book) {
    const std::vector<VehicleInShort> vehicles = book.vehiclesInShort();
    if (vehicles.empty())
        return "No vehicle is in this book yet. Add one with: swarfbook vehicle add LABEL\n" +
               withdrawnVehicleLines(book);
    std::vector<std::vector<std::string>> rows{{"label", "unit", "visits", "last visit", "note"}};
    rows.reserve(vehicles.size() + 1);
    for (const auto& [vehicle, visits, lastVisit] : vehicles)
        rows.push_back({vehicle.label, orDash(vehicle.unit), fmt::format("{}", visits),
                        orDash(dateWords(lastVisit)), orDash(vehicle.note)});
    return textTable(std::move(rows)) + withdrawnVehicleLines(book);
}

std::string vehicleText(const Book& book, const Vehicle& vehicle) {
    return fmt::format("vehicle  {}\nunit     {}\nplate    {}\nVIN      {}\nnote     {}\n\n{}",
                       vehicle.label, orDash(vehicle.unit), orDash(vehicle.plate),
                       orDash(vehicle.vin), orDash(vehicle.note), visitListText(book, vehicle));
}

std::string visitListText(const Book& book, const Vehicle& vehicle) {
    const std::vector<Visit> visits = book.visits(vehicle.id);
    const std::string withdrawn = withdrawnLines("visit", book.withdrawnVisits(vehicle.id));
    if (visits.empty())
        return fmt::format("No visit of {0} is in this book yet. Add one with: swarfbook visit add "
                           "{0} --date today --odometer KM\n",
                           vehicle.label) +
               withdrawn;
    std::vector<std::vector<std::string>> rows{
        {"visit", "date", "odometer", "since last clean", "photos", "complaint"}};
    for (const Visit& visit : visits)
        rows.push_back({fmt::format("{}", visit.id), dateWords(visit.date),
                        kilometres(visit.odometerKm), kilometres(visit.sinceCleanKm),
                        photosByPlace(book, visit.id), orDash(visit.complaint)});
    return textTable(std::move(rows)) + withdrawn;
}

std::string visitText(const Book& book, const Visit& visit) {
    std::string text = fmt::format(
        "visit             {}\nvehicle           {}\ndate              {}\n"
        "odometer          {}{}\nlast clean        {}\nsince last clean  {}\n"
        "looked by         {}\ncomplaint         {}\n",
        visit.id, book.vehicle(visit.vehicleId).label, dateWords(visit.date),
        kilometres(visit.odometerKm), visit.odometerReplaced ? " (odometer replaced)" : "",
        visit.lastClean.empty() ? "not known" : dateWords(visit.lastClean),
        kilometres(visit.sinceCleanKm), orDash(visit.lookedBy), orDash(visit.complaint));
    const std::vector<StoredPhoto> photos = book.photos(visit.id);
    text += photos.empty() ? "\nNo photo is in this visit yet.\n" : "\n" + photoTable(photos);
    text += withdrawnLines("photo", book.withdrawnPhotos(visit.id));
    const std::vector<StoredObservation> observations = book.observations(visit.id);
    if (!observations.empty())
        text += "\n" + observationTable(book, observations, book.workPhotos(visit.id));
    return text;
}

} // namespace swarfbook::cli

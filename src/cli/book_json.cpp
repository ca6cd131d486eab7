// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "assess/measurement_json.h"
#include "assess/text_or_null.h"
#include "cli/book_output.h"

#include <utility>

namespace swarfbook::cli {
namespace {

using nlohmann::ordered_json;

ordered_json numberOrNull(const std::optional<double>& number) {
    return number ? ordered_json(*number) : ordered_json(nullptr);
}

/// Null for a text that is damaged.
ordered_json parsedOrNull(const std::string& text) {
    const auto parsed = ordered_json::parse(text, nullptr, false);
    return parsed.is_discarded() ? ordered_json(nullptr) : parsed;
}

ordered_json json(const Vehicle& vehicle) {
    return {{"label", vehicle.label},
            {"unit", textOrNull(vehicle.unit)},
            {"plate", textOrNull(vehicle.plate)},
            {"vin", textOrNull(vehicle.vin)},
            {"note", textOrNull(vehicle.note)}};
}

ordered_json json(const Visit& visit) {
    ordered_json all{{"number", visit.id}};
    all.update(visitFacts(visit));
    return all;
}

ordered_json json(const StoredPhoto& photo) {
    return {{"sha256", photo.sha256},
            {"file", photo.fileName},
            {"place", placeName(photo.place)},
            {"sampling", textOrNull(photo.sampling)},
            {"added_at", photo.addedAt},
            {"measured_at", photo.measuredAt},
            {"program_version", photo.programVersion},
            {"options", parsedOrNull(photo.options)},
            {"measurement", toJson(photo.measurement)}};
}

/// The photos of work that belong to an observation.
ordered_json photosOfWork(const std::vector<WorkPhoto>& photos, std::int64_t observation) {
    ordered_json all = ordered_json::array();
    for (const WorkPhoto& photo : photos)
        if (photo.observationId == observation)
            all.push_back({{"shows", workMomentWord(photo.moment)},
                           {"sha256", photo.sha256},
                           {"file", photo.fileName},
                           {"added_at", photo.addedAt}});
    return all;
}

ordered_json visitsOf(const Book& book, const Vehicle& vehicle) {
    ordered_json visits = ordered_json::array();
    for (const Visit& visit : book.visits(vehicle.id)) {
        ordered_json entry = json(visit);
        std::size_t photos = 0;
        for (const auto& [place, count] : book.photoCounts(visit.id))
            photos += count;
        entry["photos"] = photos;
        visits.push_back(entry);
    }
    return visits;
}

} // namespace

ordered_json visitFacts(const Visit& visit) {
    return {{"date", visit.date},
            {"odometer_km", numberOrNull(visit.odometerKm)},
            {"odometer_replaced", visit.odometerReplaced},
            {"last_clean", textOrNull(visit.lastClean)},
            {"since_clean_km", numberOrNull(visit.sinceCleanKm)},
            {"looked_by", textOrNull(visit.lookedBy)},
            {"complaint", textOrNull(visit.complaint)}};
}

ordered_json vehicleListJson(const Book& book) {
    ordered_json::array_t list;
    for (const auto& [vehicle, visits, lastVisit] : book.vehiclesInShort()) {
        ordered_json entry = json(vehicle);
        entry["visits"] = visits;
        entry["last_visit"] = textOrNull(lastVisit);
        list.push_back(std::move(entry));
    }
    ordered_json all{{"format", "swarfbook vehicle list 1"}};
    all["vehicles"] = std::move(list); // moved: a braced list would copy all of it
    return all;
}

ordered_json vehicleJson(const Book& book, const Vehicle& vehicle) {
    return {{"format", "swarfbook vehicle 1"},
            {"vehicle", json(vehicle)},
            {"visits", visitsOf(book, vehicle)}};
}

ordered_json visitListJson(const Book& book, const Vehicle& vehicle) {
    return {{"format", "swarfbook visit list 1"},
            {"vehicle", vehicle.label},
            {"visits", visitsOf(book, vehicle)}};
}

ordered_json visitJson(const Book& book, const Visit& visit) {
    ordered_json photos = ordered_json::array();
    for (const StoredPhoto& photo : book.photos(visit.id))
        photos.push_back(json(photo));
    const std::vector<WorkPhoto> ofWork = book.workPhotos(visit.id);
    ordered_json observations = ordered_json::array();
    for (const StoredObservation& observation : book.observations(visit.id))
        observations.push_back(
            {{"number", observation.id},
             {"kind", observation.kind},
             {"recorded_at", observation.recordedAt},
             {"by", observation.by.empty() ? visit.lookedBy : observation.by},
             {"corrects",
              observation.corrects ? ordered_json(*observation.corrects) : ordered_json(nullptr)},
             {"content", parsedOrNull(observation.json)},
             {"photos", photosOfWork(ofWork, observation.id)}});
    return {{"format", "swarfbook visit 1"},
            {"vehicle", json(book.vehicle(visit.vehicleId))},
            {"visit", json(visit)},
            {"photos", photos},
            {"observations", observations}};
}

} // namespace swarfbook::cli

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "record/evidence_of_visit.h"

#include "base/errors.h"
#include "bench/after_repair_fields.h"
#include "record/flush_of_visit.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <stdexcept>

namespace swarfbook {
namespace {

DebrisSample sampleOfPhoto(const StoredPhoto& photo) {
    DebrisSample sample;
    sample.place = photo.place;
    sample.basis = photo.place == Place::filter || photo.place == Place::strained
                       ? photo.measurement.basis
                       : SampleBasis();
    sample.sampling = samplingOf(photo.sampling, sample.basis);
    sample.photoName = photo.fileName;
    sample.refusal = photo.measurement.refusal;
    if (!sample.refusal) {
        if (photo.measurement.debris)
            sample.shownOnly = photo.measurement.debris->shownOnly;
        if (!sample.shownOnly)
            sample.finding = photo.measurement.debris;
        sample.magnet = photo.measurement.magnet;
    }
    return sample;
}

} // namespace

Observation observationOf(const StoredObservation& stored) {
    try {
        return observationFromJson(stored.kind, nlohmann::json::parse(stored.json));
    } catch (const std::exception& wrong) {
        throw ToolError(fmt::format("Observation {0} of visit {1} in the book cannot be read: {2}. "
                                    "A newer program may have written it. swarfbook observe "
                                    "--visit {1} --corrects {0} KIND ... puts another entry in its "
                                    "place.",
                                    stored.id, stored.visitId, wrong.what()));
    }
}

std::optional<Observation> observationIfReadable(const Book& book,
                                                 const StoredObservation& stored) {
    try {
        return observationOf(stored);
    } catch (const ToolError& wrong) {
        book.tell(fmt::format("{} It was left out.", wrong.what()));
        return std::nullopt;
    }
}

std::vector<StoredObservation> standing(std::vector<StoredObservation> all) {
    std::map<std::int64_t, std::int64_t> places; // of each entry, the one that it stands in for
    std::set<std::int64_t> corrected;
    for (const StoredObservation& one : all) {
        const auto stoodFor = one.corrects ? places.find(*one.corrects) : places.end();
        places[one.id] = stoodFor == places.end() ? one.id : stoodFor->second;
        if (one.corrects)
            corrected.insert(*one.corrects);
    }
    std::erase_if(all, [&](const StoredObservation& one) {
        return one.kind == fields::Of<TakenBack>::kind || corrected.contains(one.id);
    });
    std::stable_sort(all.begin(), all.end(), [&](const auto& one, const auto& other) {
        return places.at(one.id) < places.at(other.id);
    });
    return all;
}

VisitEvidence evidenceOfOneVisit(const Book& book, const Visit& visit) {
    VisitEvidence evidence;
    evidence.visitId = visit.id;
    evidence.date = visit.date;
    evidence.complaint = visit.complaint;
    if (visit.odometerKm)
        evidence.odometer = Kilometres(*visit.odometerKm);
    if (visit.sinceCleanKm) {
        evidence.observations.emplace_back(SinceClean{Typed<Kilometres>{
            Kilometres(*visit.sinceCleanKm), fmt::format("{:.0f} km", *visit.sinceCleanKm)}});
        evidence.observationNumbers.push_back(0);
    }
    const std::vector<StoredPhoto> photos = book.photos(visit.id);
    for (const StoredPhoto& photo : photos)
        evidence.samples.push_back(sampleOfPhoto(photo));
    evidence.flushes = flushesOfVisit(book, visit.id, photos);
    for (const StoredObservation& stored : standing(book.observations(visit.id))) {
        evidence.observations.push_back(observationOf(stored));
        evidence.observationNumbers.push_back(stored.id);
    }
    return evidence;
}

Evidence evidenceOfVisit(const Book& book, std::int64_t visitId) {
    const Visit visit = book.visit(visitId);
    Evidence evidence;
    evidence.now = evidenceOfOneVisit(book, visit);
    for (const Visit& other : book.visits(visit.vehicleId)) {
        if (other.id == visit.id)
            break; // oldest first: what follows is later
        evidence.earlier.push_back(evidenceOfOneVisit(book, other));
    }
    return evidence;
}

} // namespace swarfbook

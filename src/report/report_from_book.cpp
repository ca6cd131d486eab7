// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/report_from_book.h"

#include "base/errors.h"
#include "judgement/coat_of_magnet.h"
#include "judgement/judge_visit.h"
#include "judgement/visit_samples.h"
#include "record/evidence_of_visit.h"
#include "record/photo_date.h"
#include "record/piece_corrections.h"
#include "record/unit_charts.h"
#include "report/learned_cases.h"
#include "report/method_notes.h"
#include "report/report_history.h"
#include "report/report_pieces.h"
#include "report/report_sample.h"
#include "report/report_words.h"
#include "report/report_work_photos.h"
#include "report/work_done.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {

namespace {

ReportedJob jobOf(const Vehicle& vehicle, const Visit& visit, const ReportOptions& options) {
    ReportedJob job;
    job.workshop = options.workshop;
    job.address = options.address;
    job.telephone = options.telephone;
    job.vehicle = vehicle.label;
    job.unit = vehicle.unit;
    if (options.withPlate) {
        job.plate = vehicle.plate;
        job.vin = vehicle.vin;
    }
    job.visit = visit.id;
    job.date = visit.date;
    job.odometerKm = visit.odometerKm;
    job.complaint = visit.complaint;
    job.lookedBy = visit.lookedBy;
    return job;
}

/// What is to be asked about photos: whoever reads the report may know the answer.
void addQuestions(ReportModel& model, const std::vector<StoredPhoto>& photos) {
    for (const StoredPhoto& photo : photos) {
        for (const std::string& caution : photo.measurement.cautions)
            model.notKnown.push_back(
                fmt::format("Photo of the {}: {}", placeWord(photo.place), caution));
        if (const std::string question =
                dateQuestion(photo.measurement.photo.taken, model.job.date);
            !question.empty())
            model.notKnown.push_back(fmt::format("Whether the photo of the {} is of this visit. {}",
                                                 placeWord(photo.place), question));
    }
}

void addSamples(ReportModel& model, Originals& originals, const std::vector<StoredPhoto>& photos) {
    for (const StoredPhoto& photo : photos) {
        const auto [bgr, why] = photo.measurement.refusal ? Original{} : originals.of(photo);
        model.samples.push_back(reportedSample(bgr, photo.measurement));
        ReportedSample& sample = model.samples.back();
        sample.place = photo.place;
        sample.sha256 = photo.sha256;
        sample.sampling = samplingOf(photo.sampling, photo.measurement.basis);
        sample.programVersion = photo.programVersion;
        for (const RegroupedPieces& pieces : photo.regrouped)
            sample.byHand.push_back(regroupedSentence(pieces));
        for (const CorrectedPiece& piece : photo.corrected)
            sample.byHand.push_back(correctedSentence(piece));
        if (!why.empty())
            model.notKnown.push_back(
                fmt::format("The photo of the {} added {} is reported without pictures: {}",
                            placeWord(photo.place), dateWords(photo.addedAt), why));
    }
}

/// Samples stand in the order of the photos.
void markPasses(ReportModel& model, const std::vector<StoredPhoto>& photos,
                const std::vector<StoredFlush>& flushes) {
    for (const StoredFlush& flush : flushes)
        for (const StoredPass& pass : flush.passes)
            for (std::size_t i = 0; i < photos.size(); ++i)
                if (photos[i].id == pass.photoId)
                    model.samples[i].ofFlush = true;
}

void addObservations(ReportModel& model, const std::vector<StoredObservation>& stored) {
    const std::vector<StoredObservation> kept = standing(stored);
    model.corrected = static_cast<int>(stored.size() - kept.size());
    for (const StoredObservation& one : kept) {
        const Observation observation = observationOf(one);
        if (!isInBenchTables(observation))
            model.observations.push_back({one.kind, describe(observation), one.recordedAt, one.by});
        if (const auto* left = std::get_if<NotInspected>(&observation))
            model.notInspected.push_back(left->what);
    }
}

/// File names are the shop's own and may hold a plate or a name: a report calls its photos by
/// number, in the order it shows them.
void nameByNumber(VisitEvidence& visit) {
    int number = 0;
    for (DebrisSample& sample : visit.samples)
        sample.photoName = fmt::format("{} ({})", ++number, placeWord(sample.place));
}

void addJudgement(ReportModel& model, const Judgement& judgement) {
    model.noSuggestion = judgement.restsOnNothing;
    if (judgement.restsOnNothing.empty()) {
        model.suggestion = judgement.suggestion;
        model.elimination = judgement.elimination;
    }
    model.verdict = verdictSentence(model.suggestion);
    model.nextCheck = nextCheckSentence(model.suggestion, model.job.odometerKm);
}

} // namespace

ReportModel reportFromBook(const Book& book, std::int64_t visitId, const ReportOptions& options) {
    const Visit visit = book.visit(visitId);
    const std::vector<StoredPhoto> photos = book.photos(visitId);
    const std::vector<StoredObservation> observations = book.observations(visitId);
    if (photos.empty() && observations.empty())
        throw EvidenceRefused(fmt::format(
            "Visit {0} has neither a photo nor an observation, so there is nothing to report. Add "
            "one first: swarfbook add --visit {0} --place pan PHOTO, or swarfbook observe "
            "--visit {0} ...",
            visitId));
    Evidence evidence = evidenceWithUnit(book, visitId, options.models);
    nameByNumber(evidence.now);
    ReportModel model;
    model.programVersion = options.programVersion;
    model.job = jobOf(book.vehicle(visit.vehicleId), visit, options);
    if (const auto since = sinceClean(evidence.now))
        model.job.sinceCleanKm = since->value();
    Originals originals(book);
    addSamples(model, originals, photos);
    addQuestions(model, photos);
    model.methodNotes = methodNotes(book, photos);
    addObservations(model, observations);
    const JudgementModels models = loadJudgementModels(options.models);
    for (ReportedSample& sample : model.samples)
        if (sample.magnet)
            sample.coatClass = coatClassSentence(*sample.magnet, models.rules);
    const Judgement judgement = judgeVisit(evidence, models, learnedCases(book, models.rules));
    model.benchTables = benchTables(evidence.now, models.rules, judgement.parts);
    model.flushes = evidence.now.flushes;
    markPasses(model, photos, book.flushes(visitId));
    model.workDone = workSentences(evidence.now, judgement.parts);
    addWorkPhotos(model, book, evidence.now, judgement.parts);
    addJudgement(model, judgement);
    model.pieces = reportedPieces(model.suggestion, {book, originals, evidence, models.rules});
    addComparison(model, book, evidence, originals);
    addTrend(model, evidence, models.wear);
    model.coats = coatHistory(evidence, models.rules);
    return model;
}

} // namespace swarfbook

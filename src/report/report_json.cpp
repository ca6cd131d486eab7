// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/report_json.h"

#include "assess/after_magnet_json.h"
#include "assess/magnet_height_json.h"
#include "assess/measurement_json.h"
#include "assess/second_light_json.h"
#include "assess/text_or_null.h"
#include "assess/type_evidence_json.h"
#include "judgement/flush_words.h"
#include "particles/count.h"
#include "particles/type_evidence.h"
#include "report/report_words.h"
#include "report/report_work_photos.h"
#include "report/type_sources.h"

#include <cmath>

namespace swarfbook {

namespace {

using Json = nlohmann::ordered_json;

/// The number cut to `decimals`, for documents that do not change with the compiler.
Json rounded(double value, int decimals) {
    if (!std::isfinite(value))
        return nullptr;
    const double power = std::pow(10.0, decimals);
    return std::round(value * power) / power;
}

Json kilometres(const std::optional<double>& km) {
    return km ? rounded(*km, 1) : Json(nullptr);
}

Json typesJson(const std::vector<int>& byType) {
    Json types = Json::object();
    for (int i = 0; i < particleTypeCount; ++i)
        if (const int n = byType.at(static_cast<std::size_t>(i)); n > 0)
            types[std::string(typeWord(static_cast<ParticleType>(i)))] = n;
    return types;
}

Json pieceJson(const Particle& piece) {
    return {{"id", piece.id},
            {"max_feret_mm", rounded(piece.maxFeret.value.value(), 3)},
            {"max_feret_u_mm", rounded(piece.maxFeret.standardUncertainty.value(), 3)},
            {"max_feret_at_least_mm",
             piece.leastSize ? Json(rounded(piece.leastSize->value(), 3)) : Json(nullptr)},
            {"min_feret_mm", rounded(piece.minFeret.value.value(), 3)},
            {"min_feret_u_mm", rounded(piece.minFeret.standardUncertainty.value(), 3)},
            {"length_mm", rounded(piece.length.value(), 3)},
            {"size_class", piece.sizeClass},
            {"type", typeWord(piece.type)},
            {"type_decided_by", textOrNull(std::string(typeDecidedBy(piece)))},
            {"type_said", toJson(piece.said)},
            {"debris_probability", rounded(piece.debrisProbability, 3)},
            {"type_probability", rounded(piece.typeProbability, 3)},
            {"ferrous", piece.ferrous == Ferrous::notKnown ? Json(nullptr)
                                                           : Json(piece.ferrous == Ferrous::yes)},
            {"at_edge", piece.atEdge},
            {"may_be_several", piece.mayBeSeveral}};
}

Json countsJson(const DebrisFinding& debris) {
    Json rows = Json::array();
    for (const ClassCount& row : debris.counts)
        rows.push_back(
            {{"size_class", row.sizeClass},
             {"from_um", rounded(row.from.value(), 1)},
             {"to_um", rounded(row.to.value(), 1)},
             {"complete", row.complete},
             {"count", row.count},
             {"value", rounded(row.per100Cm2, 3)},
             {"interval_95", {rounded(row.intervalLow, 3), rounded(row.intervalHigh, 3)}},
             {"by_type", typesJson(row.byType)}});
    return rows;
}

Json leftOutJson(const DebrisFinding& debris) {
    Json list = Json::array();
    for (const LeftOut& part : debris.leftOut)
        list.push_back(part.why);
    return list;
}

Json magnetJson(const MagnetFinding& magnet) {
    Json slivers = Json::array();
    for (const Particle& sliver : magnet.slivers)
        slivers.push_back(pieceJson(sliver));
    return {{"shape", magnetShapeName(magnet.shape)},
            {"covered_share", rounded(magnet.coveredShare.value.value(), 3)},
            {"covered_share_u", rounded(magnet.coveredShare.standardUncertainty.value(), 3)},
            {"overhang_mean_mm", rounded(magnet.overhangMean.value(), 3)},
            {"overhang_p95_mm", rounded(magnet.overhangP95.value(), 3)},
            {"overhang_max_mm", rounded(magnet.overhangMax.value(), 3)},
            {"overhang_u_mm", magnet.overhangUncertainty
                                  ? Json(rounded(magnet.overhangUncertainty->value(), 3))
                                  : Json(nullptr)},
            {"outline_lost", magnet.outlineLost},
            {"slivers_told", magnet.sliversTold},
            {"height_above_card", toJson(magnet.height)},
            {"slivers", std::move(slivers)}};
}

Json cardJson(const ReportedSample& sample) {
    return {{"layout", sample.layout},
            {"serial", textOrNull(sample.serial)},
            {"print_scale", rounded(sample.printScale.value, 5)},
            {"print_scale_u", rounded(sample.printScale.standardUncertainty, 5)},
            {"print_scale_checked", sample.printScale.checked},
            {"tilt_deg", rounded(sample.tilt.value(), 1)},
            {"scale_u_percent", rounded(sample.scaleUPercent, 3)}};
}

Json piecesJson(const std::vector<ReportedPiece>& pieces) {
    Json list = Json::array();
    for (const ReportedPiece& piece : pieces) {
        list.push_back(pieceJson(piece.particle));
        list.back()["in_coat"] = piece.inCoat;
    }
    return list;
}

/// What page one shows.
Json shownJson(const ReportedPieces& pieces) {
    return {{"verdict_rests_on_them", pieces.restedOn},
            {"sentence", textOrNull(pieces.sentence)},
            {"pieces", pieces.count},
            {"largest", piecesJson(pieces.now)},
            {"last_visit", textOrNull(pieces.beforeDate)},
            {"pieces_last_visit", pieces.countBefore},
            {"largest_last_visit", piecesJson(pieces.before)}};
}

Json sampleJson(const ReportedSample& sample) {
    Json json{
        {"place", placeName(sample.place)},   {"sampling", textOrNull(sample.sampling)},
        {"sample_basis", sample.basis},       {"photo_sha256", sample.sha256},
        {"taken", textOrNull(sample.taken)},  {"measured_by", textOrNull(sample.programVersion)},
        {"sentence", sampleSentence(sample)}, {"refusal", nullptr}};
    if (sample.refusal) {
        json["refusal"] = {{"reason", reasonName(sample.refusal->reason)},
                           {"detail", sample.refusal->detail},
                           {"advice", sample.refusal->advice}};
        return json;
    }
    json["card"] = cardJson(sample);
    const PiecesFound found = piecesFound(sample.debris);
    json["size_floor_mm"] = rounded(sample.debris.detectionLimit.value(), 3);
    json["seen_from_mm"] = rounded(sample.debris.resolutionLimit.value(), 3);
    json["window_cm2"] = rounded(sample.debris.windowArea.value(), 2);
    json["measured_cm2"] = rounded(sample.debris.measuredArea.value(), 2);
    json["left_out"] = leftOutJson(sample.debris);
    const auto& only = sample.debris.shownOnly;
    json["shown_only"] = only ? Json{{"why", only->why}, {"advice", only->advice}} : Json(nullptr);
    json["pieces"] = only ? Json(nullptr) : Json(found.fromFloor);
    json["smaller_pieces_seen"] = only ? Json(nullptr) : Json(found.smaller);
    // a stored word, which does not change with the words that people read
    json["counts_are"] =
        sample.debris.onWhiteCard ? "pieces of the whole sample" : countUnit(sample.debris);
    json["counts"] = countsJson(sample.debris);
    json["size_certainty"] =
        sample.debris.sizeSampling ? toJson(*sample.debris.sizeSampling) : Json(nullptr);
    json["code"] = textOrNull(sample.debris.code);
    json["largest"] = piecesJson(sample.largest);
    json["corrected_by_hand"] = sample.byHand;
    json["longest_threads"] = piecesJson(sample.threads);
    json["after_magnet"] = sample.afterMagnet ? toJson(*sample.afterMagnet) : Json(nullptr);
    json["second_light"] = sample.secondLight ? toJson(*sample.secondLight) : Json(nullptr);
    json["types_decided"] = textOrNull(typeSourcesSentence(sample.debris));
    json["coat_class"] = textOrNull(sample.coatClass);
    json["magnet"] = sample.magnet ? magnetJson(*sample.magnet) : Json(nullptr);
    return json;
}

Json comparisonJson(const ReportModel& model) {
    if (!model.comparison)
        return {{"compared", false}, {"sentence", model.noComparison}};
    const ReportedComparison& both = *model.comparison;
    Json json{{"compared", both.compared},
              {"before", both.beforeDate},
              {"now", both.nowDate},
              {"place", placeName(both.place)},
              {"sentence", both.sentence}};
    if (!both.compared)
        return json;
    Json changes = Json::array();
    for (const ReportedChange& change : both.changes)
        changes.push_back({{"what", change.type ? typeWord(*change.type) : "all pieces"},
                           {"before", change.before},
                           {"now", change.now},
                           {"ratio", change.ratio ? rounded(*change.ratio, 4) : Json(nullptr)},
                           {"interval_95", {rounded(change.low, 4), rounded(change.high, 4)}},
                           {"proven", change.proven}});
    json["size_floor_mm"] = rounded(both.detectionLimit.value(), 3);
    json["changes"] = std::move(changes);
    return json;
}

Json jobJson(const ReportedJob& job) {
    Json json{{"workshop", textOrNull(job.workshop)},
              {"address", textOrNull(job.address)},
              {"telephone", textOrNull(job.telephone)},
              {"vehicle", job.vehicle},
              {"unit", textOrNull(job.unit)},
              {"visit", job.visit},
              {"date", job.date},
              {"odometer_km", kilometres(job.odometerKm)},
              {"since_clean_km", kilometres(job.sinceCleanKm)},
              {"complaint", textOrNull(job.complaint)},
              {"looked_by", textOrNull(job.lookedBy)}};
    if (!job.plate.empty())
        json["plate"] = job.plate;
    if (!job.vin.empty())
        json["vin"] = job.vin;
    return json;
}

Json trendJson(const ReportModel& model) {
    Json points = Json::array();
    for (const ReportedTrendPoint& point : model.trend)
        points.push_back({{"visit", point.visit},
                          {"date", point.date},
                          {"odometer_km", kilometres(point.odometerKm)},
                          {"wear_score", toJson(point.score)}});
    return {{"points", std::move(points)}, {"sentence", model.trendSentence}};
}

/// By the table's key: its rows by the columns' keys, and its conditions.
Json tablesJson(const ReportModel& model) {
    Json all = Json::object();
    for (const ReportedTable& table : model.benchTables) {
        Json rows = Json::array();
        for (const std::vector<std::string>& cells : table.rows) {
            Json row = Json::object();
            for (std::size_t i = 0; i < cells.size(); ++i)
                row[table.columns[i].key] = textOrNull(cells[i]);
            rows.push_back(std::move(row));
        }
        all[table.key] = {{"rows", std::move(rows)}, {"conditions", table.conditions}};
    }
    return all;
}

Json flushesOfReport(const ReportModel& model) {
    Json all = Json::array();
    for (const FlushOfPart& flush : model.flushes) {
        all.push_back({{"part", flush.part}, {"clean_tray_photographed", flush.trayPhotographed}});
        all.back().update(flushJson(flush));
    }
    return all;
}

} // namespace

nlohmann::ordered_json reportJson(const ReportModel& model) {
    Json samples = Json::array();
    for (const ReportedSample& sample : model.samples)
        samples.push_back(sampleJson(sample));
    Json observations = Json::array();
    for (const ReportedObservation& observation : model.observations)
        observations.push_back({{"kind", observation.kind},
                                {"line", observation.line},
                                {"recorded_at", observation.recordedAt},
                                {"by", textOrNull(observation.by)}});
    Json report{{"format", "swarfbook report 2"},
                {"program", "swarfbook " + model.programVersion},
                {"job", jobJson(model.job)},
                {"verdict", model.verdict},
                {"suggestion", model.suggestion ? toJson(*model.suggestion) : Json(nullptr)},
                {"no_suggestion", textOrNull(model.noSuggestion)},
                {"next_check", textOrNull(model.nextCheck)},
                {"work_done", model.workDone},
                {"work_photos", workPhotosJson(model.workShown)},
                {"samples", std::move(samples)},
                {"shown_pieces", shownJson(model.pieces)},
                {"comparison", comparisonJson(model)},
                {"wear_score", toJson(model.wearScore)},
                {"trend", trendJson(model)},
                {"magnet_coats", toJson(model.coats)},
                {"bench_tables", tablesJson(model)},
                {"flushes", flushesOfReport(model)},
                {"observations", std::move(observations)},
                {"corrected_observations", model.corrected},
                {"not_inspected", model.notInspected},
                {"not_looked_at_or_known", notLookedAt(model)},
                {"method", methodSentences(model)},
                {"cautions", cautionSentences(model)},
                {"standing_line", standingLine()}};
    if (model.elimination)
        report["elimination"] = toJson(*model.elimination);
    return report;
}

} // namespace swarfbook

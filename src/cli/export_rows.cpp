// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/export_rows.h"

#include "assess/text_or_null.h"
#include "cli/book_output.h"
#include "judgement/flush_words.h"
#include "particles/count.h"
#include "particles/type_evidence.h"
#include "record/evidence_of_visit.h"
#include "record/flush_of_visit.h"
#include "record/piece_corrections.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace swarfbook::cli {
namespace {

/// A length or share as it is worth: to a thousandth.
double rounded(double value) {
    return std::round(value * 1000.0) / 1000.0;
}

ExportRow visitRow(const Vehicle& vehicle, const Visit& visit, std::size_t photos) {
    ExportRow row{{"visit", visit.id},
                  {"vehicle", validUtf8(vehicle.label)},
                  {"unit", textOrNull(vehicle.unit)}};
    row.update(visitFacts(visit));
    row["photos"] = photos;
    return row;
}

void visitRows(const ExportedVisit& of, const RowTaker& take) {
    std::size_t photos = 0;
    for (const auto& [place, count] : of.book->photoCounts(of.visit.id))
        photos += count;
    take(visitRow(of.vehicle, of.visit, photos));
}

ExportRow photoRow(const Vehicle& vehicle, const Visit& visit, const StoredPhoto& photo) {
    const Measurement& m = photo.measurement;
    ExportRow row{{"photo", photo.id},
                  {"visit", visit.id},
                  {"vehicle", validUtf8(vehicle.label)},
                  {"date", visit.date},
                  {"place", placeWord(photo.place)},
                  {"file", validUtf8(photo.fileName)},
                  {"sha256", photo.sha256},
                  {"sampling", textOrNull(photo.sampling)},
                  {"taken", textOrNull(m.photo.taken)},
                  {"added_at", photo.addedAt},
                  {"measured_at", photo.measuredAt},
                  {"program_version", photo.programVersion},
                  {"not_measured_because", m.refusal ? textOrNull(m.refusal->detail) : ExportRow()},
                  {"counted", false},
                  {"complete_from_mm", nullptr},
                  {"nothing_shows_under_mm", nullptr},
                  {"pieces", nullptr},
                  {"smaller_pieces_at_least", nullptr},
                  {"magnet_covered_share", nullptr},
                  {"magnet_covered_share_u", nullptr},
                  {"after_magnet_used", nullptr},
                  {"second_light_used", nullptr}};
    if (m.afterMagnet)
        row["after_magnet_used"] = m.afterMagnet->sweep.has_value();
    if (m.secondLight)
        row["second_light_used"] = m.secondLight->used;
    if (m.debris && !m.refusal) {
        const PiecesFound found = piecesFound(*m.debris);
        row["counted"] = !m.debris->shownOnly.has_value();
        row["complete_from_mm"] = rounded(m.debris->detectionLimit.value());
        row["nothing_shows_under_mm"] = rounded(m.debris->resolutionLimit.value());
        row["pieces"] = found.fromFloor;
        row["smaller_pieces_at_least"] = found.smaller;
    }
    if (m.magnet) {
        row["magnet_covered_share"] = rounded(m.magnet->coveredShare.value.value());
        row["magnet_covered_share_u"] = rounded(m.magnet->coveredShare.standardUncertainty.value());
    }
    return row;
}

void photoRows(const ExportedVisit& of, const RowTaker& take) {
    for (const StoredPhoto& photo : of.book->photos(of.visit.id))
        take(photoRow(of.vehicle, of.visit, photo));
}

ExportRow pieceRow(const ExportedVisit& of, const StoredPhoto& photo, const Particle& piece) {
    const bool corrected =
        regroupingOf(photo, piece.id) != nullptr ||
        std::any_of(photo.corrected.begin(), photo.corrected.end(),
                    [&](const CorrectedPiece& one) { return one.piece == piece.id; });
    return {{"photo", photo.id},
            {"visit", of.visit.id},
            {"vehicle", validUtf8(of.vehicle.label)},
            {"date", of.visit.date},
            {"place", placeWord(photo.place)},
            {"piece", piece.id},
            {"type", typeWord(piece.type)},
            {"longest_side_mm", rounded(piece.maxFeret.value.value())},
            {"longest_side_u_mm", rounded(piece.maxFeret.standardUncertainty.value())},
            {"shortest_side_mm", rounded(piece.minFeret.value.value())},
            {"shortest_side_u_mm", rounded(piece.minFeret.standardUncertainty.value())},
            {"area_mm2", rounded(piece.area.value.value())},
            {"area_u_mm2", rounded(piece.area.standardUncertainty.value())},
            {"x_mm", rounded(piece.centre.x)},
            {"y_mm", rounded(piece.centre.y)},
            {"is_debris_probability", rounded(piece.debrisProbability)},
            {"type_probability", rounded(piece.typeProbability)},
            {"doubtful", piece.mayBeNone()},
            {"corrected_by_hand", corrected},
            {"touches_edge", piece.atEdge},
            {"maybe_several", piece.mayBeSeveral},
            {"counted", photo.measurement.debris && !photo.measurement.debris->shownOnly},
            {"magnetic", piece.ferrous == Ferrous::notKnown
                             ? ExportRow(nullptr)
                             : ExportRow(piece.ferrous == Ferrous::yes)},
            {"type_decided_by", textOrNull(std::string(typeDecidedBy(piece)))}};
}

/// A row of the export for a pass of a flush; `pass` is what it counted.
ExportRow passOfFlushRow(const ExportedVisit& of, const StoredFlush& flush, const ExportRow& pass) {
    ExportRow row{{"flush", flush.id},
                  {"visit", of.visit.id},
                  {"vehicle", validUtf8(of.vehicle.label)},
                  {"date", of.visit.date},
                  {"part", validUtf8(flush.part)}};
    for (const char* key : {"pass", "step", "photo", "counted", "pieces", "doubtful", "area_mm2",
                            "largest_mm", "largest_u_mm"})
        row[key] = pass.contains(key) ? pass.at(key) : ExportRow(nullptr);
    const bool known = pass.contains("last_over_sum") && !pass.at("last_over_sum").is_null();
    row["last_over_sum"] = known ? pass.at("last_over_sum").at("ratio") : ExportRow(nullptr);
    return row;
}

void flushRows(const ExportedVisit& of, const RowTaker& take) {
    const std::vector<StoredFlush> flushes = of.book->flushes(of.visit.id);
    if (flushes.empty())
        return;
    const std::vector<StoredPhoto> photos = of.book->photos(of.visit.id);
    for (const StoredFlush& flush : flushes) {
        const ExportRow counted = flushJson(countedFlush(flush, photos));
        for (std::size_t i = 0; i < flush.passes.size(); ++i) {
            ExportRow pass = counted.at("passes").at(i);
            pass["photo"] = flush.passes[i].photoId;
            take(passOfFlushRow(of, flush, pass));
        }
    }
}

void pieceRows(const ExportedVisit& of, const RowTaker& take) {
    for (const StoredPhoto& photo : of.book->photos(of.visit.id))
        if (photo.measurement.debris && !photo.measurement.refusal)
            for (const Particle& piece : photo.measurement.debris->particles)
                take(pieceRow(of, photo, piece));
}

ExportRow workPhotoRow(const ExportedVisit& of, const WorkPhoto& photo, bool stands) {
    return {{"work_photo", photo.id},
            {"observation", photo.observationId},
            {"visit", of.visit.id},
            {"vehicle", validUtf8(of.vehicle.label)},
            {"date", of.visit.date},
            {"shows", workMomentWord(photo.moment)},
            {"file", validUtf8(photo.fileName)},
            {"sha256", photo.sha256},
            {"added_at", photo.addedAt},
            {"stands", stands}};
}

/// Numbers of the observations of a visit that stand.
std::set<std::int64_t> standingNumbers(const std::vector<StoredObservation>& all) {
    std::set<std::int64_t> numbers;
    for (const StoredObservation& one : standing(all))
        numbers.insert(one.id);
    return numbers;
}

void workPhotoRows(const ExportedVisit& of, const RowTaker& take) {
    const std::set<std::int64_t> stand = standingNumbers(of.book->observations(of.visit.id));
    for (const WorkPhoto& photo : of.book->workPhotos(of.visit.id))
        take(workPhotoRow(of, photo, stand.contains(photo.observationId)));
}

ExportRow observationRow(const ExportedVisit& of, const StoredObservation& one, bool stands) {
    const auto readable = of.book == nullptr ? std::nullopt : observationIfReadable(*of.book, one);
    const auto content = ExportRow::parse(one.json, nullptr, false);
    return {{"observation", one.id},
            {"visit", of.visit.id},
            {"vehicle", validUtf8(of.vehicle.label)},
            {"date", of.visit.date},
            {"kind", validUtf8(one.kind)},
            {"recorded_at", one.recordedAt},
            {"by", textOrNull(one.by.empty() ? of.visit.lookedBy : one.by)},
            {"corrects", one.corrects ? ExportRow(*one.corrects) : ExportRow(nullptr)},
            {"stands", stands},
            {"text", readable ? textOrNull(describe(*readable)) : ExportRow(nullptr)},
            {"content", content.is_discarded() ? ExportRow(nullptr) : content}};
}

void observationRows(const ExportedVisit& of, const RowTaker& take) {
    const std::vector<StoredObservation> all = of.book->observations(of.visit.id);
    const std::set<std::int64_t> stand = standingNumbers(all);
    for (const StoredObservation& one : all)
        take(observationRow(of, one, stand.contains(one.id)));
}

/// The columns of a row, from one made of nothing.
std::vector<ExportTable> tables() {
    static const Vehicle vehicle;
    static const Visit visit;
    const StoredPhoto photo;
    const ExportedVisit of{nullptr, vehicle, visit};
    return {{"visits", "a row a visit", visitRows, visitRow(vehicle, visit, 0)},
            {"photos", "a row a photo, with its counts and limits", photoRows,
             photoRow(vehicle, visit, photo)},
            {"pieces", "a row a piece that a photo shows", pieceRows, pieceRow(of, photo, {})},
            {"flushes", "a row a pass of a flush, with what it washed out", flushRows,
             passOfFlushRow(of, {}, ExportRow::object())},
            {"observations", "a row an observation, corrected ones too", observationRows,
             observationRow(of, {}, false)},
            {"work-photos", "a row a photo of work, before or after it was done", workPhotoRows,
             workPhotoRow(of, {}, false)}};
}

} // namespace

const std::vector<ExportTable>& exportTables() {
    static const std::vector<ExportTable> all = tables();
    return all;
}

} // namespace swarfbook::cli

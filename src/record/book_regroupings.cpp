// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "particles/regroup_pieces.h"
#include "record/book.h"
#include "record/calendar.h"
#include "record/database.h"
#include "record/entry_text.h"
#include "record/judged_case.h"
#include "record/piece_corrections.h"
#include "record/standing_corrections.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <set>

namespace swarfbook {
namespace {

std::string placesText(const std::vector<PointOnCard>& places) {
    nlohmann::json text = nlohmann::json::array();
    for (const PointOnCard& place : places)
        text.push_back({place.x, place.y});
    return text.dump();
}

/// What cannot be read, which no program of this project wrote, is no place.
std::vector<PointOnCard> placesFrom(const std::string& text) {
    std::vector<PointOnCard> places;
    const auto json = nlohmann::json::parse(text, nullptr, false);
    if (json.is_array())
        for (const auto& place : json)
            if (place.is_array() && place.size() == 2 && place[0].is_number() &&
                place[1].is_number())
                places.push_back({place[0].get<double>(), place[1].get<double>()});
    return places;
}

void keepRegrouping(Database& database, std::int64_t photoId, const PieceRegrouping& one,
                    bool stands) {
    database
        .prepare("INSERT INTO piece_regrouping (photo_id, places, stands, why, done_by, done_at) "
                 "VALUES (?, ?, ?, ?, ?, ?)")
        .with(photoId, placesText(one.at), std::int64_t{stands ? 1 : 0},
              checkedNote("The reason", one.reason.why), checkedLine("The name", one.reason.by),
              nowUtc())
        .run();
}

const Particle& pieceMeant(const StoredPhoto& photo, PointOnCard at) {
    const Particle* piece = photo.measurement.debris && !photo.measurement.refusal
                                ? pieceAt(*photo.measurement.debris, at)
                                : nullptr;
    if (piece == nullptr)
        throw UsageError(
            fmt::format("Photo {} has no piece at {:.1f}, {:.1f} mm.", photo.id, at.x, at.y));
    return *piece;
}

/// The pieces of those places, each once.
std::vector<Particle> piecesMeant(const StoredPhoto& photo, const std::vector<PointOnCard>& at) {
    std::vector<Particle> pieces;
    for (const PointOnCard& place : at) {
        const Particle& piece = pieceMeant(photo, place);
        if (std::none_of(pieces.begin(), pieces.end(),
                         [&](const Particle& one) { return one.id == piece.id; }))
            pieces.push_back(piece);
    }
    return pieces;
}

/// A slip of the finger would make one piece of two corners of the photo. The limit is ours.
void requireNear(const std::vector<Particle>& pieces) {
    for (const Particle& one : pieces) {
        Millimetres nearest(0.0), longest = one.maxFeret.value;
        bool first = true;
        for (const Particle& other : pieces) {
            longest = std::max(longest, other.maxFeret.value);
            if (other.id == one.id)
                continue;
            const Millimetres gap = gapBetween(one, other);
            nearest = first ? gap : std::min(nearest, gap);
            first = false;
        }
        if (nearest > longest)
            throw UsageError(fmt::format("Piece {} lies {:.1f} mm from the others, farther than "
                                         "the longest of them is long. They were left as they are.",
                                         one.id, nearest.value()));
    }
}

/// A regrouping with those that rest on the pieces that it made.
struct MadeSince {
    std::vector<const RegroupedPieces*> said;
    std::set<int> pieces; ///< their numbers
};

MadeSince madeBy(const StoredPhoto& photo, const RegroupedPieces& first) {
    MadeSince made;
    for (const RegroupedPieces& one : photo.regrouped) {
        const bool restsOnIt = std::any_of(one.measured.begin(), one.measured.end(),
                                           [&](int piece) { return made.pieces.contains(piece); });
        if (&one != &first && !restsOnIt)
            continue;
        made.said.push_back(&one);
        made.pieces.insert(one.now.begin(), one.now.end());
    }
    return made;
}

void requireDividable(const Particle& piece) {
    if (!dividedPiece(piece, piece.id))
        throw UsageError(fmt::format("Piece {} shows no area that could be divided.", piece.id));
}

} // namespace

std::vector<PieceRegrouping> standingRegroupings(Database& database, std::int64_t photoId) {
    Statement rows = database.prepare("SELECT places, stands, done_by, why, done_at FROM "
                                      "piece_regrouping WHERE photo_id = ? ORDER BY id");
    rows.with(photoId);
    std::vector<std::pair<std::string, PieceRegrouping>> standing;
    while (rows.step()) {
        const std::string places = rows.text(0);
        std::erase_if(standing, [&](const auto& one) { return one.first == places; });
        if (rows.integer(1) != 0)
            standing.push_back(
                {places, {placesFrom(places), {rows.text(2), rows.text(3)}, rows.text(4)}});
    }
    std::vector<PieceRegrouping> all;
    for (auto& [places, one] : standing)
        if (!one.at.empty())
            all.push_back(std::move(one));
    return all;
}

void Book::regroupPieces(std::int64_t photoId, const PieceRegrouping& given) {
    BookTransaction transaction = begin();
    const StoredPhoto stored = photo(photoId);
    const std::vector<Particle> pieces = piecesMeant(stored, given.at);
    if (given.at.empty() || (given.joins() && pieces.size() < 2))
        throw UsageError("One piece alone cannot be joined. Name two or more.");
    PieceRegrouping kept{{}, given.reason, ""};
    for (const Particle& piece : pieces) {
        const RegroupedPieces* before = regroupingOf(stored, piece.id);
        if (before == nullptr) {
            kept.at.push_back(piece.centre);
            continue;
        }
        if (!given.joins() && !before->said.joins()) { // a part of what was divided
            kept.at.push_back(piece.centre);
            continue;
        }
        if (given.joins() != before->said.joins())
            throw UsageError(fmt::format("Piece {} was {} by hand. Take that back first.", piece.id,
                                         before->said.joins() ? "joined" : "divided"));
        kept.at.insert(kept.at.end(), before->said.at.begin(), before->said.at.end());
        keepRegrouping(*database_, photoId, {before->said.at, given.reason, ""}, false);
    }
    if (given.joins())
        requireNear(pieces);
    else
        requireDividable(pieces.front());
    keepRegrouping(*database_, photoId, kept, true);
    forgetJudgedCase(*database_, stored.visitId);
    transaction.commit();
}

void Book::undoRegrouping(std::int64_t photoId, PointOnCard at, const ChangeReason& reason) {
    BookTransaction transaction = begin();
    const StoredPhoto stored = photo(photoId);
    const RegroupedPieces* said = regroupingOf(stored, pieceMeant(stored, at).id);
    if (said == nullptr)
        throw UsageError("That piece was neither joined nor divided, so there is nothing to undo.");
    const MadeSince made = madeBy(stored, *said);
    for (const Particle& piece : stored.measurement.debris->particles)
        for (const CorrectedPiece& one : stored.corrected)
            if (made.pieces.contains(piece.id) && samePlace(one.correction.at, piece.centre))
                correctPiece(photoId, {one.correction.at, "", reason, ""});
    for (const RegroupedPieces* one : made.said)
        keepRegrouping(*database_, photoId, {one->said.at, reason, ""}, false);
    forgetJudgedCase(*database_, stored.visitId);
    transaction.commit();
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "record/book.h"
#include "record/calendar.h"
#include "record/database.h"
#include "record/entry_text.h"
#include "record/judged_case.h"
#include "record/piece_corrections.h"
#include "record/standing_corrections.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

namespace swarfbook {
namespace {

/// Corrections at places nearer than this belong to one piece.
constexpr double samePlaceMm = 0.05;

/// Place of the piece that is meant: one corrected at exactly that place, a piece found there, or
/// one nearby that was corrected before and no longer counts.
std::optional<PointOnCard> placeMeant(const StoredPhoto& photo,
                                      const std::vector<PieceCorrection>& before, PointOnCard at) {
    for (const PieceCorrection& one : before)
        if (samePlace(one.at, at))
            return one.at;
    if (photo.measurement.debris)
        if (const Particle* piece = pieceAt(*photo.measurement.debris, at)) {
            for (const CorrectedPiece& one : photo.corrected)
                if (one.piece == piece->id)
                    return one.correction.at;
            return piece->centre;
        }
    for (const PieceCorrection& one : before)
        if (std::hypot(one.at.x - at.x, one.at.y - at.y) < 0.5)
            return one.at;
    return std::nullopt;
}

} // namespace

bool samePlace(PointOnCard a, PointOnCard b) {
    return std::hypot(a.x - b.x, a.y - b.y) < samePlaceMm;
}

std::vector<PieceCorrection> standingCorrections(Database& database, std::int64_t photoId) {
    Statement rows = database.prepare("SELECT x_mm, y_mm, said, done_by, why, done_at "
                                      "FROM piece_correction WHERE photo_id = ? ORDER BY id");
    rows.with(photoId);
    std::vector<PieceCorrection> standing;
    while (rows.step()) {
        const PieceCorrection one{{rows.real(0).value_or(0.0), rows.real(1).value_or(0.0)},
                                  rows.text(2),
                                  {rows.text(3), rows.text(4)},
                                  rows.text(5)};
        std::erase_if(standing,
                      [&](const PieceCorrection& other) { return samePlace(other.at, one.at); });
        if (!one.said.empty())
            standing.push_back(one);
    }
    return standing;
}

void Book::correctPiece(std::int64_t photoId, const PieceCorrection& given) {
    const auto& words = correctionWords();
    if (!given.said.empty() && std::find(words.begin(), words.end(), given.said) == words.end())
        throw UsageError(fmt::format("A piece cannot be \"{}\". Say one of: {}.", given.said,
                                     fmt::join(words, ", ")));
    BookTransaction transaction = begin();
    const StoredPhoto stored = photo(photoId);
    const auto before = standingCorrections(*database_, photoId);
    const auto at = placeMeant(stored, before, given.at);
    if (!at)
        throw UsageError(fmt::format("Photo {0} has no piece at {1:.1f}, {2:.1f} mm. swarfbook "
                                     "piece --photo {0} lists its pieces.",
                                     photoId, given.at.x, given.at.y));
    if (given.said.empty() && std::none_of(before.begin(), before.end(),
                                           [&](const auto& one) { return samePlace(one.at, *at); }))
        throw UsageError("That piece was not corrected, so there is nothing to undo.");
    database_
        ->prepare("INSERT INTO piece_correction (photo_id, x_mm, y_mm, said, why, done_by, "
                  "done_at) VALUES (?, ?, ?, ?, ?, ?, ?)")
        .with(photoId, std::optional(at->x), std::optional(at->y), given.said,
              checkedNote("The reason", given.reason.why), checkedLine("The name", given.reason.by),
              nowUtc())
        .run();
    forgetJudgedCase(*database_, stored.visitId);
    transaction.commit();
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/book_values.h"
#include "record/database.h"

#include <cstdint>
#include <vector>

namespace swarfbook {

/// Whether corrections at two places belong to one piece.
bool samePlace(PointOnCard a, PointOnCard b);

/// The valid corrections of a photo's pieces: the newest of each place, without those taken back.
/// For the book's own members.
std::vector<PieceCorrection> standingCorrections(Database& database, std::int64_t photoId);

/// The regroupings of a photo's pieces that were not taken back, oldest first. For the book's own
/// members.
std::vector<PieceRegrouping> standingRegroupings(Database& database, std::int64_t photoId);

} // namespace swarfbook

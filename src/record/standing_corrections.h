// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/book_values.h"
#include "record/database.h"

#include <cstdint>
#include <vector>

namespace swarfbook {

/// The valid corrections of a photo's pieces: the newest of each place, without those taken back.
/// For the book's own members.
std::vector<PieceCorrection> standingCorrections(Database& database, std::int64_t photoId);

} // namespace swarfbook

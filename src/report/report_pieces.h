// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "judgement/evidence.h"
#include "judgement/suggestion.h"
#include "judgement/suggestion_model.h"
#include "report/originals.h"
#include "report/report_model.h"

#include <optional>

namespace swarfbook {

/// Where the pieces of page one come from.
struct PiecesSource {
    const Book& book;
    Originals& originals;
    const Evidence& evidence;
    const SuggestionModel& rules;
};

/// The pieces that page one shows, cropped and ringed, all at one scale.
///
/// The strongest reason for the suggestion that rests on pieces in a photo decides which: exactly
/// those that its sentence counts. If no reason does, the largest pieces of all photos, without
/// threads and doubtful pieces. Pieces whose original photo cannot be shown are counted and have no
/// crop.
/// Checked: tests/report/report_pieces_test.cpp.
ReportedPieces reportedPieces(const std::optional<Suggestion>& suggestion,
                              const PiecesSource& source);

} // namespace swarfbook

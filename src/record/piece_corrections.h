// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/book_values.h"

#include <string>
#include <vector>

namespace swarfbook {

/// The words that a piece can be corrected to: the types "bright metal", "yellow metal", "lining",
/// "plastic", "fibre"; "not debris" (a shadow, a scratch) and "left over" (from assembly or
/// manufacture), which do not count.
const std::vector<std::string>& correctionWords();

/// Puts what a hand said of how many pieces there are into the finding, and makes counts and code
/// anew (particles/regroup_pieces.h), in their order: a later one may divide what an earlier one
/// made. To be done before applyCorrections. What is said of finds
/// that the finding does not have is left out, with no numbers.
/// Checked: tests/record/piece_regroupings_test.cpp.
std::vector<RegroupedPieces> applyRegroupings(Measurement& measurement,
                                              const std::vector<PieceRegrouping>& regroupings);

/// What a hand said last of how many pieces that piece is; null where nothing was.
const RegroupedPieces* regroupingOf(const StoredPhoto& photo, int piece);

/// "Pieces 3 and 5 are one piece, 3 (by M.)."; "Piece 4 is two pieces, 4 and 12.": for lists and
/// reports.
std::string regroupedSentence(const RegroupedPieces& pieces);

/// The finding's piece at a place: the one whose outline's box contains the place or whose centre
/// is nearest, within half a millimetre or half its length. nullptr if there is none.
const Particle* pieceAt(const DebrisFinding& debris, PointOnCard at);

/// Puts the corrections, of different places, into the finding: sets the corrected types as
/// certain, removes pieces that are not debris, and makes counts and code anew. A refused photo,
/// and one whose pieces are shown, not counted, keeps its (absent) counts.
/// Checked: tests/record/piece_corrections_test.cpp.
std::vector<CorrectedPiece> applyCorrections(Measurement& measurement,
                                             const std::vector<PieceCorrection>& corrections);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/book_values.h"

#include <vector>

namespace swarfbook {

/// The words that a piece can be corrected to: the types "bright metal", "yellow metal", "lining",
/// "plastic", "fibre"; "not debris" (a shadow, a scratch) and "left over" (from assembly or
/// manufacture), which do not count.
const std::vector<std::string>& correctionWords();

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

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "record/book_values.h"

#include <vector>

namespace swarfbook {

/// The words that a piece can be corrected to: the types "bright metal", "yellow metal", "lining",
/// "plastic", "fibre"; "not debris" (a shadow, a scratch) and "left over" (of assembly or
/// manufacture), which count nowhere.
const std::vector<std::string>& correctionWords();

/// The finding's piece at a place: the one whose outline's box holds it or whose centre is nearest,
/// within half a millimetre or half its length. nullptr where there is none.
const Particle* pieceAt(const DebrisFinding& debris, PointOnCard at);

/// Puts the corrections, of different places, into the finding: types as said and certain, pieces
/// that are none taken out, counts and code made anew. A refused photo, and one whose pieces are
/// shown only, keeps its (absent) counts.
/// Checked: tests/record/piece_corrections_test.cpp.
std::vector<CorrectedPiece> applyCorrections(Measurement& measurement,
                                             const std::vector<PieceCorrection>& corrections);

} // namespace swarfbook

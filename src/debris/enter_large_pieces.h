// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/contrast.h"
#include "debris/piece_model.h"

namespace swarfbook {

/// Enters the large pieces (`field.large`) in the map: sure where they stand out from the surface
/// by half of what their middle does, or more; not where the map shows most of them already.
/// Checked: tests/debris/large_pieces_test.cpp, measure_debris_test.cpp (drawn plates).
void enterLargePieces(PieceMap& map, const WindowCrop& crop, const ContrastField& field);

} // namespace swarfbook

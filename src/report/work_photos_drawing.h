// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "report/pieces_drawing.h"

namespace swarfbook {

/// Draws the line of work and below it its photos, those of before at the left and those of after
/// at the right, a pair a row; each is named.
/// @return the height that it takes.
/// Checked: tests/report/work_photos_test.cpp.
double drawWorkPhotos(const PiecesCanvas& canvas, const ReportedWork& work);

} // namespace swarfbook

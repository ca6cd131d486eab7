// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "report/pieces_drawing.h"

namespace swarfbook {

/// Draws the line of work and below it its photos, before at the left and after at the right, one
/// pair per row, each with its name. @return its height.
/// Checked: tests/report/work_photos_test.cpp.
double drawWorkPhotos(const PiecesCanvas& canvas, const ReportedWork& work);

} // namespace swarfbook

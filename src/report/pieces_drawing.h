// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "report/drawing.h"
#include "report/report_model.h"

#include <functional>

namespace swarfbook {

/// The place of the pieces on page one, in the pen's unit.
struct PiecesCanvas {
    cairo_t* pen = nullptr;
    Spot at;
    double width = 0.0;
    double letter = 9.0;      ///< size of the letters
    bool measureOnly = false; ///< nothing is drawn
    /// Draws a picture with its top-left corner at a spot, in this size.
    std::function<void(const cv::Mat&, Spot, Extent)> picture;
};

/// Draws a line that says what the pieces are, a row of the present pieces, a row of those of the
/// last visit, and below them a bar of 1 mm and a pencil lead of 0.7 mm (ISO 9177-1), all at the
/// scale of the crops. @return its height; 0 if there are no pieces.
/// Checked: tests/report/pieces_drawing_test.cpp.
double drawPieces(const PiecesCanvas& canvas, const ReportedPieces& pieces);

/// "Now: 8 pieces; the 7 largest are shown".
std::string nowTitle(const ReportedPieces& pieces);
/// "Last visit, 2024-05-13: none surely so large; these were the largest of bright metal"; "" without a
/// last visit.
std::string beforeTitle(const ReportedPieces& pieces);

} // namespace swarfbook

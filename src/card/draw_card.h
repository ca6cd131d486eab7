// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "base/units.h"
#include "card/layout.h"

#include <string>
#include <vector>

namespace swarfbook {

enum class PaperSize { a4, letter };

/// One sheet with one card on it.
struct CardSheet {
    CardLayout layout;
    std::string serial; ///< the printed card's own number, in its margin and in the instructions
    PaperSize paper = PaperSize::a4;
    bool cutWindow = false; ///< true: instructions for a frame; false: for a white card
};

struct SheetSize {
    Millimetres width, height;
};
/// Portrait: A4 210 x 297 mm (ISO 216), Letter 215.9 x 279.4 mm (ANSI/ASME Y14.1).
SheetSize sheetSize(PaperSize paper);

/// Where the card's outer top-left corner lies on the sheet, millimetres from the sheet's own.
PointOnCard cardOnSheet(const CardSheet& sheet);

/// Draws the sheet as a PDF of one page, every length exact: the card as in its layout, with
/// instructions round it for printing, measuring, cutting, laying and photographing it. Nothing is
/// nearer than 10 mm to the sheet's sides or 12.7 mm to its top and bottom, which the usual
/// printers keep.
///
/// @return the PDF file's bytes; everything drawn is vector, the letters are embedded.
///         Throws std::logic_error if the card or the instructions do not fit on the sheet.
/// Source: calibration/reference-card.json for the geometry; OpenCV's dictionary for the markers.
/// Checked: tests/card/draw_card_test.cpp (rasterised by poppler at 600 dpi).
std::vector<unsigned char> drawCardPdf(const CardSheet& sheet);

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "bench/work_sheet.h"
#include "report/drawing.h"

#include <string>
#include <vector>

/// The lines and grids of a work sheet, with boxes to tick and room to write, in points.
/// Checked: tests/report/work_sheet_pdf_test.cpp.
namespace swarfbook {

/// Height of one line or row.
inline constexpr double sheetLineStep = 13.4;

/// Whether it is drawn, or only its height is asked for.
enum class Ask { draw, height };

struct LineRoom {
    Spot at; ///< where the line begins
    double width = 0.0;
};
/// A line of a sheet (bench/work_sheet.h says its form), broken at the room's width where three
/// blanks stand, so that no box is parted from its label; gives the height it takes.
double putLine(cairo_t* pen, const LineRoom& room, const std::string& line, Ask ask);

/// A block's grid with the room that it gets.
struct Grid {
    std::vector<std::string> titles;
    std::vector<std::vector<std::string>> rows;
    std::vector<double> widths; ///< of the columns
    double titleHeight = 0.0;

    [[nodiscard]] double height() const;
    [[nodiscard]] double width() const;
};

/// The grid of a block with its columns as wide as titles and boxes ask for.
Grid leastGrid(cairo_t* pen, const SheetBlock& block);
/// The same in `width`: what is left goes to the columns that are written in. No title is cut.
Grid gridOf(cairo_t* pen, const SheetBlock& block, double width);
void drawGrid(cairo_t* pen, Spot at, const Grid& grid);

} // namespace swarfbook

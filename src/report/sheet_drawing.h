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

/// Whether to draw, or only to work out the height.
enum class Ask { draw, height };

struct LineRoom {
    Spot at; ///< where the line begins
    double width = 0.0;
};
/// Draws a line of a sheet (bench/work_sheet.h describes its form), broken at the room's width at
/// three blanks, so that no box is separated from its label; returns its height.
double putLine(cairo_t* pen, const LineRoom& room, const std::string& line, Ask ask);

/// A block's grid with its place.
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
/// The same in `width`: the columns to write in get the remaining width. No title is cut.
Grid gridOf(cairo_t* pen, const SheetBlock& block, double width);
void drawGrid(cairo_t* pen, Spot at, const Grid& grid);

} // namespace swarfbook

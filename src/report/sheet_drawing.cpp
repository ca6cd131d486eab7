// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/sheet_drawing.h"

#include <algorithm>
#include <numeric>
#include <sstream>

namespace swarfbook {
namespace {

constexpr double sheetTextSize = 8.0, boxSide = 7.0, strokeWidth = 17.0;
constexpr double unitGap = 9.0;
constexpr double gridTitleSize = 6.8, gridTitleHeight = 18.0, leastColumn = 19.0;

struct RuleStyle {
    Ink ink = black;
    double thick = 0.5;
};
void rule(cairo_t* pen, Spot from, double width, const RuleStyle& style = {}) {
    setInk(pen, style.ink);
    cairo_set_line_width(pen, style.thick);
    cairo_move_to(pen, from.x, from.y);
    cairo_line_to(pen, from.x + width, from.y);
    cairo_stroke(pen);
}

void tickBox(cairo_t* pen, Spot at) {
    setInk(pen, black);
    cairo_set_line_width(pen, 0.6);
    cairo_rectangle(pen, at.x, at.y, boxSide, boxSide);
    cairo_stroke(pen);
}

/// A line in parts: words, "[]" for boxes and runs of "_" for room to write.
struct Piece {
    enum class Kind { word, box, strokes } kind = Kind::word;
    std::string text;
    double width = 0.0;
};

std::vector<Piece> piecesOf(cairo_t* pen, const std::string& line, double size) {
    std::vector<Piece> pieces;
    std::size_t at = 0;
    while (at < line.size()) {
        if (line.compare(at, 2, "[]") == 0) {
            pieces.push_back({Piece::Kind::box, "", boxSide + 2.0});
            at += 2;
        } else if (line[at] == '_') {
            const std::size_t end = std::min(line.find_first_not_of('_', at), line.size());
            pieces.push_back(
                {Piece::Kind::strokes, "", strokeWidth * static_cast<double>(end - at)});
            at = end;
        } else if (line[at] == ' ') {
            pieces.push_back({Piece::Kind::word, "", 3.0});
            ++at;
        } else {
            const std::size_t end = std::min(
                {line.find(' ', at), line.find('_', at), line.find("[]", at), line.size()});
            Piece word{Piece::Kind::word, line.substr(at, end - at), 0.0};
            word.width = textExtent(pen, word.text, {.size = size}).width;
            pieces.push_back(word);
            at = end;
        }
    }
    return pieces;
}

/// A line cut at its possible breaks: at three blanks, so that a box stays with its label.
std::vector<std::string> unitsOf(const std::string& line) {
    std::vector<std::string> units;
    std::size_t at = 0;
    while (at < line.size()) {
        const std::size_t end = std::min(line.find("   ", at), line.size());
        units.push_back(line.substr(at, end - at));
        at = std::min(line.find_first_not_of(' ', end), line.size());
    }
    return units;
}

double widthOf(const std::vector<Piece>& pieces) {
    double width = 0.0;
    for (const Piece& piece : pieces)
        width += piece.width;
    return width;
}

void drawPieces(cairo_t* pen, Spot at, const std::vector<Piece>& pieces) {
    for (const Piece& piece : pieces) {
        if (piece.kind == Piece::Kind::box)
            tickBox(pen, {at.x, at.y + 2.0});
        else if (piece.kind == Piece::Kind::strokes)
            rule(pen, {at.x, at.y + 10.5}, piece.width - 3.0, {grey(0.4)});
        else if (!piece.text.empty())
            drawText(pen, at, piece.text, {.size = sheetTextSize});
        at.x += piece.width;
    }
}

/// The widest word of a title, which is broken between words.
double titleWidth(cairo_t* pen, const std::string& title) {
    double widest = 0.0;
    std::istringstream words(title);
    for (std::string word; words >> word;)
        widest =
            std::max(widest, textExtent(pen, word, {.size = gridTitleSize, .bold = true}).width);
    return widest + 5.0;
}

double cellWidth(cairo_t* pen, const std::string& cell) {
    double width = 6.0;
    for (const Piece& piece : piecesOf(pen, cell, sheetTextSize))
        width += piece.width;
    return width;
}

/// Least widths of the columns, for the words of their titles and for their boxes.
std::vector<double> leastWidths(cairo_t* pen, const Grid& grid) {
    std::vector<double> widths;
    for (std::size_t i = 0; i < grid.titles.size(); ++i) {
        double widest = std::max(leastColumn, titleWidth(pen, grid.titles[i]));
        for (const auto& row : grid.rows)
            widest = std::max(widest, cellWidth(pen, row.at(i)));
        widths.push_back(widest);
    }
    return widths;
}

TextStyle titleStyle(double width) {
    return {.size = gridTitleSize, .bold = true, .width = width - 3.0, .maxLines = 4};
}

/// The lines of a grid and its titles.
void drawGridFrame(cairo_t* pen, Spot at, const Grid& grid) {
    double x = at.x;
    for (std::size_t i = 0; i < grid.widths.size(); ++i) {
        drawText(pen, {x + 2.0, at.y}, grid.titles[i], titleStyle(grid.widths[i]));
        x += grid.widths[i];
    }
    const double width = grid.width();
    const double first = at.y + grid.titleHeight;
    const double last = first + sheetLineStep * static_cast<double>(grid.rows.size());
    rule(pen, {at.x, first}, width);
    for (double y = first + sheetLineStep; y < last + 1.0; y += sheetLineStep)
        rule(pen, {at.x, y}, width, {grey(0.6), 0.3});
    x = at.x;
    for (std::size_t i = 0; i + 1 < grid.widths.size(); ++i) {
        x += grid.widths[i];
        cairo_move_to(pen, x, at.y);
        cairo_line_to(pen, x, last);
    }
    setInk(pen, grey(0.7));
    cairo_set_line_width(pen, 0.3);
    cairo_stroke(pen);
}

} // namespace

double putLine(cairo_t* pen, const LineRoom& room, const std::string& line, Ask ask) {
    const auto [at, width] = room;
    double x = at.x, y = at.y;
    for (const std::string& unit : unitsOf(line)) {
        // a unit wider than the page breaks between its words
        std::vector<std::vector<Piece>> parts{piecesOf(pen, unit, sheetTextSize)};
        if (widthOf(parts.front()) > width) {
            const std::vector<Piece> all = parts.front();
            parts.clear();
            for (const Piece& piece : all)
                parts.push_back({piece});
        }
        for (const std::vector<Piece>& part : parts) {
            if (x + widthOf(part) > at.x + width && x > at.x) {
                x = at.x;
                y += sheetLineStep;
            }
            if (ask == Ask::draw)
                drawPieces(pen, {x, y}, part);
            x += widthOf(part);
        }
        x += unitGap;
    }
    return y - at.y + sheetLineStep;
}

double Grid::height() const {
    return titleHeight + sheetLineStep * static_cast<double>(rows.size()) + 3.0;
}

double Grid::width() const {
    return std::accumulate(widths.begin(), widths.end(), 0.0);
}

Grid leastGrid(cairo_t* pen, const SheetBlock& block) {
    Grid grid{gridTitles(block), gridRows(block), {}, 0.0};
    grid.widths = leastWidths(pen, grid);
    return grid;
}

Grid gridOf(cairo_t* pen, const SheetBlock& block, double width) {
    Grid grid = leastGrid(pen, block);
    std::vector<bool> written(grid.titles.size(), true);
    for (std::size_t i = 0; i < written.size(); ++i)
        for (const auto& row : grid.rows)
            written[i] = written[i] && row[i].find("[]") == std::string::npos;
    const auto free = static_cast<double>(std::count(written.begin(), written.end(), true));
    const double left = width - grid.width();
    for (std::size_t i = 0; i < written.size(); ++i) {
        if (left > 0.0 && written[i])
            grid.widths[i] += left / free;
        grid.titleHeight = std::max(
            grid.titleHeight, textExtent(pen, grid.titles[i], titleStyle(grid.widths[i])).height);
    }
    grid.titleHeight += 2.0;
    return grid;
}

void drawGrid(cairo_t* pen, Spot at, const Grid& grid) {
    drawGridFrame(pen, at, grid);
    double y = at.y + grid.titleHeight;
    for (const auto& row : grid.rows) {
        double x = at.x;
        for (std::size_t i = 0; i < grid.widths.size(); ++i) {
            drawPieces(pen, {x + 2.0, y + 2.0}, piecesOf(pen, row[i], sheetTextSize));
            x += grid.widths[i];
        }
        y += sheetLineStep;
    }
}

} // namespace swarfbook

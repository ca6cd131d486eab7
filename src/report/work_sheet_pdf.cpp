// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "bench/cautions.h"
#include "report/pdf_report.h"
#include "report/work_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

namespace swarfbook {
namespace {

constexpr double sheetTextSize = 8.0, lineStep = 15.0, boxSide = 7.0, strokeWidth = 20.0;
constexpr double gridTitleSize = 6.8, gridTitleHeight = 18.0, leastColumn = 24.0;

void rule(cairo_t* pen, double x, double y, double width, Ink ink = black, double thick = 0.5) {
    setInk(pen, ink);
    cairo_set_line_width(pen, thick);
    cairo_move_to(pen, x, y);
    cairo_line_to(pen, x + width, y);
    cairo_stroke(pen);
}

void tickBox(cairo_t* pen, Spot at) {
    setInk(pen, black);
    cairo_set_line_width(pen, 0.6);
    cairo_rectangle(pen, at.x, at.y, boxSide, boxSide);
    cairo_stroke(pen);
}

/// A line in pieces: words, "[]" and "_" runs, each drawn as what it stands for.
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
            pieces.push_back({Piece::Kind::word, "", 2.6});
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

/// Draws it from `at`, broken at `width`; gives the height it took.
double drawLine(cairo_t* pen, Spot at, double width, const std::string& line) {
    double x = at.x, y = at.y;
    for (const Piece& piece : piecesOf(pen, line, sheetTextSize)) {
        if (x + piece.width > at.x + width && x > at.x) {
            x = at.x;
            y += lineStep;
            if (piece.kind == Piece::Kind::word && piece.text.empty())
                continue;
        }
        if (piece.kind == Piece::Kind::box)
            tickBox(pen, {x, y + 2.0});
        else if (piece.kind == Piece::Kind::strokes)
            rule(pen, x, y + 10.5, piece.width - 3.0, grey(0.4));
        else if (!piece.text.empty())
            drawText(pen, {x, y}, piece.text, {.size = sheetTextSize});
        x += piece.width;
    }
    return y - at.y + lineStep;
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

/// Widths of a grid's columns: as wide as titles and cells ask for; what is left goes to those
/// that are written in.
std::vector<double> columnWidths(cairo_t* pen, const SheetSection& section, double width) {
    std::vector<double> widths;
    std::vector<bool> written;
    double sum = 0.0;
    for (std::size_t i = 0; i < section.gridTitles.size(); ++i) {
        double widest = std::max(leastColumn, titleWidth(pen, section.gridTitles[i]));
        bool empty = true;
        for (const auto& row : section.gridRows) {
            widest = std::max(widest, cellWidth(pen, row.at(i)));
            empty = empty && row[i].find("[]") == std::string::npos;
        }
        widths.push_back(widest);
        written.push_back(empty);
        sum += widest;
    }
    const auto free = static_cast<double>(std::count(written.begin(), written.end(), true));
    for (std::size_t i = 0; i < widths.size(); ++i)
        widths[i] = sum > width  ? widths[i] * width / sum
                    : written[i] ? widths[i] + (width - sum) / free
                                 : widths[i];
    return widths;
}

/// The lines of a grid and its titles; gives the y below them.
double drawGridFrame(PageWriter& page, const SheetSection& section,
                     const std::vector<double>& widths) {
    cairo_t* pen = page.pen();
    const double top = page.y();
    double x = page.left();
    for (std::size_t i = 0; i < widths.size(); ++i) {
        drawText(pen, {x + 2.0, top}, section.gridTitles[i],
                 {.size = gridTitleSize, .bold = true, .width = widths[i] - 3.0, .maxLines = 2});
        x += widths[i];
    }
    const double first = top + gridTitleHeight;
    const double last = first + lineStep * static_cast<double>(section.gridRows.size());
    rule(pen, page.left(), first, page.width());
    for (double y = first + lineStep; y < last + 1.0; y += lineStep)
        rule(pen, page.left(), y, page.width(), grey(0.6), 0.3);
    x = page.left();
    for (std::size_t i = 0; i + 1 < widths.size(); ++i) {
        x += widths[i];
        cairo_move_to(pen, x, top);
        cairo_line_to(pen, x, last);
    }
    setInk(pen, grey(0.7));
    cairo_set_line_width(pen, 0.3);
    cairo_stroke(pen);
    return last;
}

void drawGrid(PageWriter& page, const SheetSection& section) {
    if (section.gridTitles.empty())
        return;
    const std::vector<double> widths = columnWidths(page.pen(), section, page.width());
    const double last = drawGridFrame(page, section, widths);
    double y = page.y() + gridTitleHeight;
    for (const auto& row : section.gridRows) {
        double x = page.left();
        for (std::size_t i = 0; i < widths.size(); ++i) {
            drawLine(page.pen(), {x + 2.0, y + 2.0}, 1e4, row.at(i));
            x += widths[i];
        }
        y += lineStep;
    }
    page.moveTo(last + 3.0);
}

std::string joinedCautions(const SheetSection& section) {
    std::string text;
    for (const std::string& caution : section.cautions)
        text += (text.empty() ? "" : " ") + caution;
    return text;
}

double sectionHeight(const SheetSection& section) {
    const double grid =
        section.gridTitles.empty()
            ? 0.0
            : gridTitleHeight + 4.0 + lineStep * static_cast<double>(section.gridRows.size());
    return 16.0 + (section.cautions.empty() ? 0.0 : 20.0) +
           lineStep * static_cast<double>(section.lines.size()) + grid;
}

void writeSection(PageWriter& page, const SheetSection& section) {
    page.need(sectionHeight(section));
    drawText(page.pen(), {page.left(), page.y()}, section.title,
             {.size = 9.2, .bold = true, .width = page.width() * 0.7, .maxLines = 1});
    std::string kinds;
    for (const std::string& kind : section.kinds)
        kinds += (kinds.empty() ? "observe " : ", ") + kind;
    drawText(page.pen(), {page.left(), page.y() + 1.5}, kinds,
             {.size = 6.5,
              .ink = grey(0.35),
              .align = Align::right,
              .width = page.width(),
              .maxLines = 1});
    page.gap(12.5);
    if (!section.cautions.empty()) {
        const TextStyle style{.size = 6.6, .italic = true, .width = page.width()};
        page.gap(
            drawText(page.pen(), {page.left(), page.y()}, joinedCautions(section), style).height +
            1.5);
    }
    for (const std::string& line : section.lines)
        page.gap(drawLine(page.pen(), {page.left(), page.y()}, page.width(), line));
    drawGrid(page, section);
    page.gap(2.5);
}

void writeHead(PageWriter& page, const WorkSheetJob& job) {
    drawText(page.pen(), {page.left(), page.y()},
             job.workshop.empty() ? "Work sheet" : job.workshop + ": work sheet",
             {.size = 13.0, .bold = true, .width = page.width(), .maxLines = 1});
    page.gap(18.0);
    const auto orRoom = [](const std::string& text, const char* gap) {
        return text.empty() ? std::string(gap) : text;
    };
    page.gap(drawLine(
        page.pen(), {page.left(), page.y()}, page.width(),
        fmt::format("vehicle {}   transmission {}   visit {}   date {}   odometer __   by __",
                    orRoom(job.vehicle, "____"), orRoom(job.unit, "____"), orRoom(job.visit, "__"),
                    orRoom(job.date, "___"))));
    page.gap(2.0);
}

} // namespace

std::vector<unsigned char> workSheetPdf(const WorkSheetJob& job, const Paper& paper) {
    return pdfOfPages(
        paper, "Work sheet: fill in at the bench, then type in with swarfbook observe",
        [&](PageWriter& page) {
            writeHead(page, job);
            for (const SheetSection& section : workSheetSections(job))
                writeSection(page, section);
            page.need(14.0);
            page.paragraph(std::string(standingLine()), {.size = 7.5, .italic = true});
        });
}

} // namespace swarfbook

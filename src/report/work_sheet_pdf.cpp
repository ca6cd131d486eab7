// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/work_sheet_pdf.h"

#include "base/shown_units.h"
#include "bench/cautions.h"
#include "report/pdf_report.h"
#include "report/sheet_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

namespace swarfbook {
namespace {

constexpr double besideGap = 14.0;

/// Grids that stand side by side, or lines that follow each other.
using Band = std::vector<const SheetBlock*>;

bool isGrid(const SheetBlock& block) {
    return !block.rowTitle.empty();
}

std::vector<Band> bandsOf(const SheetSection& section) {
    std::vector<Band> bands;
    for (const SheetBlock& block : section.blocks) {
        const bool lines = !bands.empty() && !isGrid(block) && !isGrid(*bands.back().front());
        if (!bands.empty() && (block.beside || lines))
            bands.back().push_back(&block);
        else
            bands.push_back({&block});
    }
    return bands;
}

/// The grids of a band, sharing the page's width as their columns ask for.
std::vector<Grid> gridsOf(PageWriter& page, const Band& band) {
    std::vector<double> needs;
    for (const SheetBlock* block : band)
        needs.push_back(leastGrid(page.pen(), *block).width());
    const double room = page.width() - besideGap * static_cast<double>(band.size() - 1) -
                        std::accumulate(needs.begin(), needs.end(), 0.0);
    std::vector<Grid> grids;
    for (std::size_t i = 0; i < band.size(); ++i)
        grids.push_back(gridOf(page.pen(), *band[i],
                               needs[i] + std::max(room, 0.0) / static_cast<double>(band.size())));
    double titles = 0.0; // rows beside each other are level
    for (const Grid& grid : grids)
        titles = std::max(titles, grid.titleHeight);
    for (Grid& grid : grids)
        grid.titleHeight = titles;
    return grids;
}

/// The band's lines one after the other; a line that fits is not broken.
double putLines(PageWriter& page, const Band& band, Ask ask) {
    double height = 0.0;
    const auto put = [&](const std::string& text, Ask how) {
        return putLine(page.pen(), {{page.left(), page.y() + height}, page.width()}, text, how);
    };
    std::string open;
    for (const SheetBlock* block : band)
        for (const std::string& line : sheetLines(*block)) {
            const std::string both = open.empty() ? line : fmt::format("{}   {}", open, line);
            const bool breaks = !open.empty() && put(both, Ask::height) > put(open, Ask::height) &&
                                put(line, Ask::height) <= sheetLineStep;
            if (breaks)
                height += put(open, ask);
            open = breaks ? line : both;
        }
    return open.empty() ? height : height + put(open, ask);
}

double putBand(PageWriter& page, const Band& band, Ask ask) {
    if (!isGrid(*band.front()))
        return putLines(page, band, ask);
    double height = 0.0, x = page.left();
    for (const Grid& grid : gridsOf(page, band)) {
        if (ask == Ask::draw)
            drawGrid(page.pen(), {x, page.y()}, grid);
        x += grid.width() + besideGap;
        height = std::max(height, grid.height());
    }
    return height;
}

constexpr TextStyle cautionStyle(double width) {
    return {.size = 6.6, .italic = true, .width = width};
}
constexpr TextStyle noteStyle(double width) {
    return {.size = 7.2, .width = width};
}

/// The title with how to type it in, cautions and notes; returns their height.
double putHeading(PageWriter& page, const SheetSection& section, Ask ask) {
    cairo_t* pen = page.pen();
    double height = 12.5;
    if (ask == Ask::draw) {
        std::string forms;
        for (const std::string& form : section.forms())
            forms += (forms.empty() ? "observe " : ", ") + form;
        drawText(pen, {page.left(), page.y()}, section.title,
                 {.size = 9.2, .bold = true, .width = page.width() * 0.7, .maxLines = 1});
        drawText(pen, {page.left(), page.y() + 1.5}, forms,
                 {.size = 6.5,
                  .ink = grey(0.35),
                  .align = Align::right,
                  .width = page.width(),
                  .maxLines = 1});
    }
    const auto put = [&](const std::string& text, const TextStyle& style) {
        height +=
            (ask == Ask::draw ? drawText(pen, {page.left(), page.y() + height}, text, style).height
                              : textExtent(pen, text, style).height) +
            1.5;
    };
    std::string cautions;
    for (const std::string& caution : section.cautions)
        cautions += (cautions.empty() ? "" : " ") + caution;
    if (!cautions.empty())
        put(cautions, cautionStyle(page.width()));
    for (const std::string& note : section.notes)
        put(note, noteStyle(page.width()));
    return height;
}

/// A step stays whole if it fits on a page; otherwise its heading stays with its first band.
void writeSection(PageWriter& page, const SheetSection& section) {
    const std::vector<Band> bands = bandsOf(section);
    double height = putHeading(page, section, Ask::height);
    for (const Band& band : bands)
        height += putBand(page, band, Ask::height);
    page.need(height);
    page.gap(putHeading(page, section, Ask::draw));
    for (const Band& band : bands) {
        page.need(putBand(page, band, Ask::height));
        page.gap(putBand(page, band, Ask::draw));
    }
    page.gap(3.5);
}

void writeHead(PageWriter& page, const WorkSheetJob& job) {
    drawText(page.pen(), {page.left(), page.y()},
             job.workshop.empty() ? "Work sheet" : job.workshop + ": work sheet",
             {.size = 13.0, .bold = true, .width = page.width(), .maxLines = 1});
    page.gap(18.0);
    const auto orRoom = [](const std::string& text, const char* gap) {
        return text.empty() ? std::string(gap) : text;
    };
    page.gap(putLine(
        page.pen(), {{page.left(), page.y()}, page.width()},
        fmt::format("vehicle {}   transmission {}   visit {}   date {}   odometer __ {}   by ____",
                    orRoom(job.vehicle, "____"), orRoom(job.unit, "____"), orRoom(job.visit, "__"),
                    orRoom(dateWords(job.date), "___"), inShownUnit(0.0, "km").unit),
        Ask::draw));
    page.gap(
        drawText(
            page.pen(), {page.left(), page.y()},
            "Write n/i beside what was not inspected. swarfbook walk asks the same, in this order.",
            noteStyle(page.width()))
            .height);
    page.gap(2.0);
}

} // namespace

std::vector<unsigned char> workSheetPdf(const WorkSheetJob& job, const Paper& paper) {
    return pdfOfPages(paper,
                      {"Work sheet: fill in at the bench, then type in with swarfbook observe",
                       "Transmission work sheet", job.workshop},
                      [&](PageWriter& page) {
                          writeHead(page, job);
                          for (const SheetSection& section : workSheetSections(job))
                              writeSection(page, section);
                          page.need(14.0);
                          page.paragraph(std::string(standingLine()),
                                         {.size = 7.5, .italic = true});
                      });
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/customer_pages.h"

#include "report/customer_words.h"
#include "report/flush_chart.h"
#include "report/pieces_drawing.h"
#include "report/report_words.h"
#include "report/scale_bar.h"
#include "report/trend_chart.h"
#include "report/work_photos_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace swarfbook {

namespace {

constexpr double signatureBlock = 88.0;

void box(cairo_t* pen, Spot at, Extent size, double thickness) {
    setInk(pen, black);
    cairo_set_line_width(pen, thickness);
    cairo_rectangle(pen, at.x, at.y, size.width, size.height);
    cairo_stroke(pen);
}

void writeTitle(PageWriter& page, const ReportedJob& job) {
    const TextStyle name{.size = 16.0, .bold = true, .width = page.width(), .maxLines = 1};
    if (!job.workshop.empty()) {
        drawText(page.pen(), {page.left(), page.y()}, job.workshop, name);
        page.gap(20.0);
    }
    if (const std::string contact = contactLine(job); !contact.empty()) {
        drawText(page.pen(), {page.left(), page.y()}, contact,
                 {.size = 9.0, .ink = grey(0.2), .width = page.width(), .maxLines = 1});
        page.gap(14.0);
    }
    drawText(page.pen(), {page.left(), page.y()}, "Transmission inspection: what was found",
             {.size = 12.0, .ink = grey(0.2), .width = page.width(), .maxLines = 1});
    page.gap(16.0);
}

std::vector<std::pair<std::string, std::string>> factsOf(const ReportedJob& job) {
    std::vector<std::pair<std::string, std::string>> facts{
        {"Vehicle", job.vehicle},
        {"Date", fmt::format("{}, visit {}", dateWords(job.date), job.visit)}};
    facts.emplace_back("Odometer", job.odometerKm ? distanceWords(*job.odometerKm) : "not said");
    facts.emplace_back("Since last clean",
                       job.sinceCleanKm ? distanceWords(*job.sinceCleanKm) : "not known");
    for (const auto& [name, said] :
         {std::pair("Transmission", &job.unit), std::pair("Looked at by", &job.lookedBy),
          std::pair("Plate", &job.plate), std::pair("VIN", &job.vin)})
        if (!said->empty())
            facts.emplace_back(name, *said);
    return facts;
}

/// Pairs of a name and what is said, two side by side.
void writeJob(PageWriter& page, const ReportedJob& job) {
    const auto facts = factsOf(job);
    const double half = page.width() / 2.0, name = 88.0;
    double height = 0.0;
    for (std::size_t i = 0; i < facts.size(); ++i) {
        const double x = page.left() + (i % 2 == 0 ? 0.0 : half);
        drawText(page.pen(), {x, page.y()}, facts[i].first,
                 {.size = 9.0, .ink = grey(0.3), .width = name, .maxLines = 1});
        const Extent room = drawText(page.pen(), {x + name, page.y()}, facts[i].second,
                                     {.size = 9.0, .width = half - name - 8.0, .maxLines = 3});
        height = std::max(height, room.height + 2.0);
        if (i % 2 == 1 || i + 1 == facts.size())
            page.gap(std::exchange(height, 0.0));
    }
    if (!job.complaint.empty()) {
        drawText(page.pen(), {page.left(), page.y()}, "Complaint",
                 {.size = 9.0, .ink = grey(0.3), .width = name, .maxLines = 1});
        const Extent room = drawText(page.pen(), {page.left() + name, page.y()}, job.complaint,
                                     {.size = 9.0, .width = page.width() - name, .maxLines = 2});
        page.gap(room.height + 2.0);
    }
    page.gap(3.0);
}

void writeVerdict(PageWriter& page, const std::string& verdict) {
    const double pad = 8.0;
    const TextStyle style{
        .size = 13.0, .bold = true, .width = page.width() - 2.0 * pad, .maxLines = 6};
    const double height = textExtent(page.pen(), verdict, style).height;
    box(page.pen(), {page.left(), page.y()}, {page.width(), height + 2.0 * pad}, 1.6);
    drawText(page.pen(), {page.left() + pad, page.y() + pad}, verdict, style);
    page.gap(height + 2.0 * pad + 4.0);
}

void writePieces(PageWriter& page, const ReportedPieces& pieces) {
    if (pieces.now.empty())
        return;
    PiecesCanvas canvas{page.pen(), {page.left(), 0.0}, page.width(), 9.0, true, {}};
    const double height = drawPieces(canvas, pieces);
    page.subheading(pieces.restedOn ? "The pieces behind this finding" : "What was found", height);
    canvas.at.y = page.y();
    canvas.measureOnly = false;
    canvas.picture = [&](const cv::Mat& bgr, Spot at, Extent room) { page.picture(bgr, at, room); };
    page.gap(drawPieces(canvas, pieces));
}

/// The work that photos show, each line with its own.
void writeWorkPhotos(PageWriter& page, const std::vector<ReportedWork>& all) {
    for (const ReportedWork& work : all) {
        PiecesCanvas canvas{page.pen(), {page.left(), 0.0}, page.width(), 9.0, true, {}};
        const double height = drawWorkPhotos(canvas, work);
        if (&work == &all.front())
            page.subheading("The work in photos", height);
        page.need(height);
        canvas.at.y = page.y();
        canvas.measureOnly = false;
        canvas.picture = [&](const cv::Mat& bgr, Spot at, Extent room) {
            page.picture(bgr, at, room);
        };
        page.gap(drawWorkPhotos(canvas, work) + 2.0);
    }
}

/// What changed, beside a small chart of the wear scores.
void writeChange(PageWriter& page, const ReportModel& model) {
    const bool chart = scoredVisits(model.trend) > 1;
    const double chartWidth = 0.5 * page.width(), chartHeight = 86.0;
    const double room = page.width() - (chart ? chartWidth + 12.0 : 0.0);
    const TextStyle style{.size = 8.5, .width = room};
    const std::string said =
        comparisonSentence(model) + (model.coats.changed ? " " + model.coats.sentence : "");
    const double text = textExtent(page.pen(), said, style).height;
    constexpr double above = 8.0; // the chart's title stands beside the heading
    const double height = std::max(text, chart ? chartHeight - above : 0.0);
    page.subheading("Since the last visit", height);
    drawText(page.pen(), {page.left(), page.y()}, said, style);
    if (chart)
        drawTrendChart(
            page.pen(),
            {{page.left() + room + 12.0, page.y() - above}, {chartWidth, chartHeight}, 6.4},
            model.trend);
    page.gap(height + 3.0);
}

constexpr double pairGap = 10.0, mostPairHeight = 130.0;

/// Both windows at one scale, at most `mostPairHeight` high.
void writePair(PageWriter& page, const ReportedComparison& both) {
    if (both.before.empty() || both.now.empty())
        return;
    const double cell = (page.width() - pairGap) / 2.0;
    const int cols = std::max(both.before.cols, both.now.cols);
    const int rows = std::max(both.before.rows, both.now.rows);
    const double factor = std::min(cell / cols, mostPairHeight / rows), height = factor * rows;
    page.need(height + 34.0);
    const cv::Mat* const pictures[2] = {&both.before, &both.now};
    const std::string titles[2] = {"Before, " + dateWords(both.beforeDate),
                                   "Now, " + dateWords(both.nowDate)};
    for (int i = 0; i < 2; ++i) {
        const Spot at{page.left() + i * (cell + pairGap), page.y()};
        drawText(page.pen(), at, titles[i], {.size = 9.0, .bold = true});
        page.picture(*pictures[i], {at.x, at.y + 13.0},
                     {factor * pictures[i]->cols, factor * pictures[i]->rows});
    }
    const PixelsPerMillimetre scale(both.pxPerMm * factor);
    const Millimetres length = roundLength(Pixels(cell / 3.0) / scale);
    const Pixels bar = length * scale;
    const double y = page.y() + 13.0 + height + 9.0;
    drawScaleBar(page.pen(), {page.left(), y}, bar, 1.0);
    drawText(page.pen(), {page.left() + bar.value() + 6.0, y - 5.5},
             barWords(length) + " in both pictures", {.size = 8.5});
    page.gap(height + 34.0);
}

void writePrices(PageWriter& page, const ReportModel& model) {
    Table table{{{"Work and parts", 4.0}, {"Price", 1.2}}, {}};
    for (const std::string& line : priceLines(model.suggestion))
        table.rows.push_back({line, ""});
    page.subheading("Price", page.tableHeight(table));
    page.table(table);
}

void writeSignature(PageWriter& page) {
    page.need(signatureBlock);
    const double top = page.y() + 4.0, width = page.width();
    box(page.pen(), {page.left(), top}, {width, 78.0}, 0.8);
    drawText(page.pen(), {page.left() + 8.0, top + 6.0},
             "Authorisation: I agree to the work named here, up to the amount below.",
             {.size = 9.0, .bold = true, .width = width - 16.0, .maxLines = 1});
    const char* const fields[2][2] = {{"Name", "Date"}, {"Signature", "Amount"}};
    for (int row = 0; row < 2; ++row)
        for (int column = 0; column < 2; ++column) {
            const double x = page.left() + 8.0 + column * 0.58 * width;
            const double lineLeft = x + 52.0, y = top + 42.0 + row * 26.0;
            const double lineRight = page.left() + (column == 0 ? 0.56 * width : width - 8.0);
            drawText(page.pen(), {x, y - 9.0}, fields[row][column], {.size = 9.0});
            setInk(page.pen(), black);
            cairo_set_line_width(page.pen(), 0.6);
            cairo_move_to(page.pen(), lineLeft, y + 2.0);
            cairo_line_to(page.pen(), lineRight, y + 2.0);
            cairo_stroke(page.pen());
        }
    page.gap(signatureBlock);
}

/// A chart of what each flush of a part washed out, and whether it is clean.
void writeFlushes(PageWriter& page, const std::vector<FlushOfPart>& flushes) {
    constexpr double chartHeight = 96.0; // points
    for (const FlushOfPart& flush : flushes) {
        page.subheading("Flushing of " + flush.part, chartHeight + 30.0);
        drawFlushChart(page.pen(), {{page.left(), page.y()}, {page.width(), chartHeight}, 8.0},
                       flush.series);
        page.gap(chartHeight + 4.0);
        page.paragraph(flushedSentence(flush));
    }
}

void writeSecondPage(PageWriter& page, const ReportModel& model) {
    writeWorkPhotos(page, model.workShown);
    writeFlushes(page, model.flushes);
    if (!model.samples.empty()) {
        page.subheading("What the photos show");
        page.bullets(photoSentences(model), {.size = 8.5});
    }
    if (model.comparison && !model.comparison->before.empty()) {
        page.subheading("Before and now", mostPairHeight + 34.0);
        writePair(page, *model.comparison);
    }
    page.subheading("What was not looked at or is not known");
    std::vector<std::string> unknown = notLookedAt(model);
    if (unknown.empty())
        unknown.emplace_back("Nothing was recorded as left out.");
    page.bullets(unknown, {.size = 8.5});
    writePrices(page, model);
    writeSignature(page);
    page.paragraph(std::string(standingLine()), {.size = 8.5, .italic = true});
}

} // namespace

void writeCustomerPages(PageWriter& page, const ReportModel& model) {
    writeTitle(page, model.job);
    writeJob(page, model.job);
    writeVerdict(page, model.verdict);
    writePieces(page, model.pieces);
    page.subheading("Why");
    page.bullets(reasonSentences(model));
    if (model.suggestion) {
        page.subheading("What we suggest");
        page.bullets(suggestionSentences(*model.suggestion));
    }
    if (!model.workDone.empty()) {
        page.subheading("What was done");
        page.bullets(model.workDone);
    }
    if (!model.nextCheck.empty()) {
        page.subheading("Next check");
        page.bullets({model.nextCheck});
    }
    writeChange(page, model);
    if (const std::string waiting = waitingSentence(model.suggestion); !waiting.empty()) {
        page.subheading("What waiting risks", page.paragraphHeight(waiting));
        page.paragraph(waiting);
    }
    writeSecondPage(page, model);
}

} // namespace swarfbook

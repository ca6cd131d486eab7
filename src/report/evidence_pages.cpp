// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/evidence_pages.h"

#include "report/elimination_table.h"
#include "report/report_words.h"
#include "report/scale_bar.h"
#include "report/trend_chart.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {

namespace {

constexpr double pairGap = 10.0;

/// What fits on the front page's two lines, bytes; a longer complaint stands here in full.
constexpr std::size_t shortComplaint = 100;

/// Height of the two pictures side by side; 0 where one is missing.
double pairHeight(const PageWriter& page, const ReportedComparison& both) {
    if (both.before.empty() || both.now.empty())
        return 0.0;
    const double cell = (page.width() - pairGap) / 2.0;
    return cell * std::max(both.before.rows, both.now.rows) /
           std::max(both.before.cols, both.now.cols);
}

/// Both pictures share one scale, so both are drawn at the same factor.
void writePair(PageWriter& page, const ReportedComparison& both) {
    const double height = pairHeight(page, both);
    if (height == 0.0)
        return;
    const double cell = (page.width() - pairGap) / 2.0;
    const double factor = cell / std::max(both.before.cols, both.now.cols);
    page.need(height + 34.0);
    const cv::Mat* const pictures[2] = {&both.before, &both.now};
    const std::string titles[2] = {"Before, " + both.beforeDate, "Now, " + both.nowDate};
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

void writeComparison(PageWriter& page, const ReportModel& model) {
    page.heading("Before and now",
                 model.comparison ? 80.0 + pairHeight(page, *model.comparison) : 40.0);
    if (!model.comparison) {
        page.paragraph(model.noComparison);
        return;
    }
    const ReportedComparison& both = *model.comparison;
    page.paragraph(fmt::format("{}, {} against {}: {}", placeTitle(both.place), both.nowDate,
                               both.beforeDate, both.sentence));
    writePair(page, both);
    if (!both.compared)
        return;
    Table table{{{fmt::format("Pieces of {:.2f} mm and more", both.sizeFloor.value()), 2.2},
                 {"Before", 0.8, Align::right},
                 {"Now", 0.8, Align::right},
                 {"Rate now / before (95\u00a0%)", 2.0, Align::right},
                 {"More than chance?", 1.5, Align::right}},
                {}};
    for (const ReportedChange& change : both.changes)
        table.rows.push_back({change.what, fmt::format("{}", change.before),
                              fmt::format("{}", change.now), ratioWords(change),
                              change.proven ? "yes" : "not shown"});
    page.table(table);
}

void writeTrend(PageWriter& page, const ReportModel& model) {
    constexpr double chartHeight = 210.0;
    page.heading("Wear score and trend", model.trend.size() > 1 ? chartHeight + 40.0 : 40.0);
    page.paragraph("This visit: " + wearWords(model.wearScore));
    page.paragraph(model.trendSentence);
    const auto scored = std::count_if(model.trend.begin(), model.trend.end(), [](const auto& p) {
        return std::holds_alternative<WearScore>(p.score);
    });
    if (model.trend.size() > 1 && scored > 0) {
        page.need(chartHeight + 8.0);
        drawTrendChart(page.pen(), {page.left(), page.y() + 2.0}, {page.width(), chartHeight},
                       model.trend, 8.5);
        page.gap(chartHeight + 8.0);
    }
    if (model.trend.size() < 2)
        return;
    Table table{{{"Visit", 0.6}, {"Date", 1.1}, {"Odometer", 1.1}, {"Wear score (95\u00a0%)", 4.2}},
                {}};
    for (const ReportedTrendPoint& point : model.trend) {
        const auto* score = std::get_if<WearScore>(&point.score);
        table.rows.push_back(
            {fmt::format("{}", point.visit), point.date,
             point.odometerKm ? kilometreWords(*point.odometerKm) : "not said",
             score != nullptr
                 ? fmt::format("{:.0f} ({:.0f} to {:.0f})", score->value, score->low, score->high)
                 : "none: " + std::get<NoWearScore>(point.score).why});
    }
    page.table(table);
}

void writeReasons(PageWriter& page, const ReportModel& model) {
    page.heading("Suggestion and reasons");
    if (!model.suggestion) {
        page.paragraph(model.noSuggestion);
        return;
    }
    const Suggestion& suggestion = *model.suggestion;
    page.bullets(suggestionSentences(suggestion));
    page.subheading("Strongest reasons");
    page.bullets(suggestion.strongestReasons.empty() ? std::vector<std::string>{"None was found."}
                                                     : suggestion.strongestReasons);
    page.subheading("Strongest fact against it");
    page.paragraph(suggestion.strongestContrary.empty() ? "None was found."
                                                        : suggestion.strongestContrary);
    page.subheading("What would change it");
    page.paragraph(suggestion.wouldChange.empty() ? "Nothing named." : suggestion.wouldChange);
    page.bullets(turnSentences(suggestion));
    if (!suggestion.learned.empty()) {
        page.subheading("How often that held in this workshop's own book");
        page.bullets(suggestion.learned);
    }
    if (suggestion.all.empty())
        return;
    Table table{{{"Step of the reasoning", 5.0}, {"Speaks", 0.9}, {"Rule", 1.6}}, {}};
    for (const Reason& reason : suggestion.all)
        table.rows.push_back({reason.sentence, reason.supports ? "for" : "against", reason.rule});
    page.table(table);
}

void writeElimination(PageWriter& page, const Elimination& elimination) {
    page.heading("Which part: elimination by gear", 120.0);
    page.paragraph(elimination.summary);
    const auto rows = eliminationRows(elimination);
    Table table;
    for (std::size_t i = 0; i < rows.front().size(); ++i) {
        const bool gear = i > 0 && i + 1 < rows.front().size();
        table.columns.push_back({rows.front()[i], gear ? 0.9 : i == 0 ? 3.0 : 1.5});
    }
    table.rows.assign(rows.begin() + 1, rows.end());
    page.table(table);
    page.paragraph(eliminationLegend(), {.size = 8.5});
    page.bullets(eliminationSentences(elimination));
    if (!elimination.tests.empty()) {
        page.subheading("Next test");
        page.paragraph(testInWords(elimination.tests.front()));
    }
    page.bullets(elimination.notes, {.size = 8.5});
}

void writeBenchTables(PageWriter& page, const ReportModel& model) {
    for (const ReportedTable& reported : model.benchTables) {
        Table table;
        for (const ReportedTable::Column& column : reported.columns)
            table.columns.push_back({column.title, column.share});
        table.rows = reported.rows;
        page.heading(reported.title);
        page.table(table);
        page.paragraph(reported.conditions, {.size = 8.5});
    }
}

void writeObservations(PageWriter& page, const ReportModel& model) {
    page.heading("Observed and tested by the technician");
    if (model.observations.empty()) {
        page.paragraph(model.benchTables.empty() ? "Nothing was typed in for this visit."
                                                 : "Nothing beside the tables above.");
        return;
    }
    Table table{{{"What", 1.2}, {"Observation", 5.0}, {"Recorded (UTC), by", 1.5}}, {}};
    for (const ReportedObservation& observation : model.observations) {
        std::string when = observation.recordedAt.substr(0, 16);
        std::replace(when.begin(), when.end(), 'T', ' ');
        if (!observation.by.empty())
            when += ", " + observation.by;
        table.rows.push_back({observation.kind, observation.line, when});
    }
    page.table(table);
    if (model.corrected > 0)
        page.paragraph(
            fmt::format("{} entr{} corrected by a later one; the earlier wording is kept "
                        "in the book.",
                        model.corrected, model.corrected == 1 ? "y was" : "ies were"),
            {.size = 8.5});
}

void writeRecord(PageWriter& page, const ReportModel& model) {
    page.heading("What this report rests on");
    page.paragraph("Written by swarfbook " + model.programVersion +
                   ". The original photos stay unchanged in the workshop's book under these "
                   "SHA-256 sums; the pictures here are copies without camera or location data.");
    Table table{{{"Place", 1.0}, {"SHA-256 of the original photo", 5.4}, {"Measured by", 1.2}}, {}};
    for (const ReportedSample& sample : model.samples)
        table.rows.push_back(
            {std::string(placeName(sample.place)), sample.sha256, sample.programVersion});
    if (!table.rows.empty())
        page.table(table);
}

} // namespace

void writeEvidencePages(PageWriter& page, const ReportModel& model) {
    page.newPage();
    for (std::size_t i = 0; i < model.samples.size(); ++i)
        writeSamplePages(page, model.samples[i], i + 1);
    if (model.samples.empty()) {
        page.heading("Photos");
        page.paragraph("No photo was taken at this visit: nothing is said of the debris beyond "
                       "what was typed in.");
    }
    writeComparison(page, model);
    writeTrend(page, model);
    writeReasons(page, model);
    if (model.elimination)
        writeElimination(page, *model.elimination);
    writeBenchTables(page, model);
    if (model.job.complaint.size() > shortComplaint) {
        page.heading("Complaint in the customer's words, in full");
        page.paragraph(model.job.complaint);
    }
    writeObservations(page, model);
    page.heading("Not looked at, not known");
    const std::vector<std::string> unknown = notLookedAt(model);
    page.bullets(unknown.empty() ? std::vector<std::string>{"Nothing was recorded as left out."}
                                 : unknown);
    page.heading("Method and uncertainty");
    page.bullets(methodSentences(model), {.size = 8.5});
    page.heading("Cautions");
    page.bullets(cautionSentences(model), {.size = 8.5});
    page.paragraph(std::string(standingLine()), {.size = 9.0, .bold = true});
    writeRecord(page, model);
}

} // namespace swarfbook

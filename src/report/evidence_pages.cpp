// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/evidence_pages.h"

#include "judgement/flush_words.h"
#include "report/elimination_table.h"
#include "report/flush_chart.h"
#include "report/flush_table.h"
#include "report/report_words.h"
#include "report/trend_chart.h"

#include <fmt/format.h>

#include <algorithm>

namespace swarfbook {

namespace {

/// What fits on the front page's two lines, bytes; a longer complaint stands here in full.
constexpr std::size_t shortComplaint = 100;

void writeComparison(PageWriter& page, const ReportModel& model) {
    if (!model.comparison || !model.comparison->compared) {
        page.heading("Before and now", 40.0);
        page.paragraph(comparisonSentence(model));
        return;
    }
    const ReportedComparison& both = *model.comparison;
    Table table{{{fmt::format("Pieces of {:.2f} mm and more", both.detectionLimit.value()), 2.2},
                 {"Before", 0.8, Align::right},
                 {"Now", 0.8, Align::right},
                 {"Rate now / before (95\u00a0%)", 2.0, Align::right},
                 {"More than chance?", 1.5, Align::right}},
                {}};
    for (const ReportedChange& change : both.changes)
        table.rows.push_back({typesWord(change.type), fmt::format("{}", change.before),
                              fmt::format("{}", change.now), ratioWords(change),
                              change.proven ? "yes" : "not shown"});
    page.heading("Before and now", 40.0 + page.tableHeight(table));
    page.paragraph(comparisonSentence(model));
    page.table(table);
}

/// What a heading has to stay with: the text below it and its table, where one page holds both.
double roomWith(const PageWriter& page, const Table& table, double text) {
    const double all = page.tableHeight(table) + text;
    return all < page.pageRoom() - 40.0 ? all : 60.0;
}

void writeTrend(PageWriter& page, const ReportModel& model) {
    constexpr double chartHeight = 210.0;
    page.heading("Wear score and trend", model.trend.size() > 1 ? chartHeight + 40.0 : 40.0);
    page.paragraph("This visit: " + wearWords(model.wearScore));
    page.paragraph(model.trendSentence);
    if (scoredVisits(model.trend) > 1) {
        page.need(chartHeight + 8.0);
        drawTrendChart(page.pen(),
                       {{page.left(), page.y() + 2.0}, {page.width(), chartHeight}, 8.5},
                       model.trend);
        page.gap(chartHeight + 8.0);
    }
    if (model.trend.size() < 2)
        return;
    Table table{{{"Visit", 0.6}, {"Date", 1.1}, {"Odometer", 1.1}, {"Wear score (95\u00a0%)", 4.2}},
                {}};
    for (const ReportedTrendPoint& point : model.trend) {
        const auto* score = std::get_if<WearScore>(&point.score);
        table.rows.push_back(
            {fmt::format("{}", point.visit), dateWords(point.date),
             point.odometerKm ? distanceWords(*point.odometerKm) : "not said",
             score != nullptr
                 ? fmt::format("{}{:.0f} ({:.0f} to {:.0f})", score->atLeast ? "at least " : "",
                               score->value, score->low, score->high)
                 : "none: " + std::get<NoWearScore>(point.score).why});
    }
    page.table(table);
}

void writeCoats(PageWriter& page, const CoatHistory& coats) {
    if (coats.sentence.empty())
        return;
    Table table{{{"Visit", 0.6},
                 {"Date", 1.1},
                 {"Since the clean", 1.1},
                 {"Face under fuzz (95\u00a0%)", 1.4, Align::right},
                 {"Past the rim, mean", 1.2, Align::right},
                 {"Trade's word", 1.3},
                 {"Compared with this visit", 2.6}},
                {}};
    for (const CoatAtVisit& coat : coats.visits)
        table.rows.push_back(
            {fmt::format("{}", coat.visit), dateWords(coat.date),
             coat.sinceClean ? distanceWords(coat.sinceClean->value()) : "not said",
             coat.full ? "at least " + coveredShareWords(coat.coveredShare)
                       : coveredShareWords(coat.coveredShare),
             overhangWords(coat.overhangMean, coat.overhangUncertainty), coat.inWords,
             &coat == &coats.visits.back() ? "this visit"
             : coat.notLikeNow.empty()     ? "yes"
                                           : "no: " + coat.notLikeNow});
    page.heading("Fuzz on the magnet over the visits", roomWith(page, table, 40.0));
    page.paragraph(coats.sentence);
    if (coats.visits.size() > 1)
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
    page.subheading("Evidence against");
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
    Table table{{{"Step of the reasoning", 5.0}, {"For or against", 1.1}, {"Rule", 1.6}}, {}};
    for (const Reason& reason : suggestion.all)
        table.rows.push_back({reason.sentence, reason.supports ? "for" : "against", reason.rule});
    page.table(table);
}

Table eliminationTable(const Elimination& elimination) {
    const auto rows = eliminationRows(elimination);
    Table table;
    for (std::size_t i = 0; i < rows.front().size(); ++i) {
        const bool gear = i > 0 && i + 1 < rows.front().size();
        table.columns.push_back({rows.front()[i], gear ? 1.0 : i == 0 ? 2.8 : 1.4});
    }
    table.rows.assign(rows.begin() + 1, rows.end());
    return table;
}

constexpr double eliminationText = 40.0; // points: what stands between its heading and its table

void writeElimination(PageWriter& page, const Elimination& elimination) {
    const Table table = eliminationTable(elimination);
    page.heading("Which part: elimination by gear", roomWith(page, table, eliminationText));
    page.paragraph(elimination.summary);
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
        page.heading(reported.title, roomWith(page, table, 0.0));
        page.table(table);
        page.paragraph(reported.conditions, {.size = 8.5});
    }
}

/// The elimination's table stays on one page: where the rest of this one has no room for it, the
/// tables of the bench go there first.
void writePartsAndBench(PageWriter& page, const ReportModel& model) {
    constexpr double headingRoom = 40.0; // points
    const bool benchFirst =
        model.elimination &&
        page.room() <
            headingRoom + roomWith(page, eliminationTable(*model.elimination), eliminationText);
    if (benchFirst)
        writeBenchTables(page, model);
    if (model.elimination)
        writeElimination(page, *model.elimination);
    if (!benchFirst)
        writeBenchTables(page, model);
}

/// What each pass washed out, as a chart and a table, and the verdict.
void writeFlush(PageWriter& page, const FlushOfPart& flush) {
    constexpr double chartHeight = 130.0; // points
    const Table table = flushTable(flush);
    page.heading("Flush of " + flush.part, chartHeight + 60.0);
    page.paragraph(flushHead(flush));
    page.need(chartHeight + 8.0);
    drawFlushChart(page.pen(), {{page.left(), page.y() + 2.0}, {page.width(), chartHeight}, 8.5},
                   flush.series);
    page.gap(chartHeight + 8.0);
    page.table(table);
    page.bullets(flushSentences(flush));
}

void writeObservations(PageWriter& page, const ReportModel& model) {
    if (model.observations.empty()) {
        page.heading("Observed and tested by the technician");
        page.paragraph(model.benchTables.empty() ? "Nothing was typed in for this visit."
                                                 : "Nothing else recorded.");
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
    page.heading("Observed and tested by the technician", roomWith(page, table, 0.0));
    page.table(table);
    if (model.corrected > 0)
        page.paragraph(
            fmt::format("{} entr{} corrected by a later one; the earlier wording is kept "
                        "in the book.",
                        model.corrected, model.corrected == 1 ? "y was" : "ies were"),
            {.size = 8.5});
}

void writeRecord(PageWriter& page, const ReportModel& model) {
    const std::string written =
        "Written by swarfbook " + model.programVersion +
        ". The original photos stay unchanged in the workshop's book under these "
        "SHA-256 sums; the pictures here are copies without camera or location data.";
    Table table{{{"Place", 1.0}, {"SHA-256 of the original photo", 5.4}, {"Measured by", 1.2}}, {}};
    for (const ReportedSample& sample : model.samples)
        table.rows.push_back(
            {std::string(placeWord(sample.place)), sample.sha256, sample.programVersion});
    for (const ReportedWork& work : model.workShown)
        for (const auto* photos : {&work.before, &work.after})
            for (const ReportedWorkPhoto& photo : *photos)
                table.rows.push_back({"work", photo.sha256, "not measured"});
    page.heading("What this report rests on", roomWith(page, table, page.paragraphHeight(written)));
    page.paragraph(written);
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
    writeCoats(page, model.coats);
    writeReasons(page, model);
    writePartsAndBench(page, model);
    for (const FlushOfPart& flush : model.flushes)
        writeFlush(page, flush);
    if (model.job.complaint.size() > shortComplaint) {
        page.heading("Complaint in the customer's words, in full");
        page.paragraph(model.job.complaint);
    }
    writeObservations(page, model);
    page.heading("Method and uncertainty");
    page.bullets(methodSentences(model), {.size = 8.5});
    page.heading("Cautions");
    page.bullets(cautionSentences(model), {.size = 8.5});
    page.paragraph(std::string(standingLine()), {.size = 9.0, .bold = true});
    writeRecord(page, model);
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/flush_chart.h"
#include "report/flush_table.h"
#include "report/hand_made.h"
#include "report/pdf_reader.h"
#include "report/pdf_report.h"
#include "report/report_json.h"
#include "report/report_text.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Contains;

namespace {

/// Passes of these many pieces of 0.9 mm in a tray that is complete from 0.75 mm up.
FlushOfPart flushOf(const std::vector<int>& passes) {
    std::vector<DebrisFinding> trays;
    for (const int pieces : passes) {
        Particle piece;
        piece.maxFeret = {Millimetres(0.9), Millimetres(0.02)};
        piece.area = {SquareMillimetres(0.5), SquareMillimetres(0.01)};
        piece.type = ParticleType::brightMetal;
        DebrisFinding tray;
        tray.detectionLimit = Millimetres(0.75);
        tray.particles.assign(static_cast<std::size_t>(pieces), piece);
        trays.push_back(tray);
    }
    std::vector<PassSeen> seen;
    for (const DebrisFinding& tray : trays)
        seen.push_back({FlushStep::wash, &tray});
    return {1, "solenoid A", false, flushSeries(seen, nullptr)};
}

} // namespace

// Worked out by hand: 60, 15 and 5 pieces; 15 / 75 = 20 %, 5 / 80 = 6 %; a bar of 30 signs is 60.
TEST_CASE("the passes of a flush are bars as long as their counts, with their figures") {
    const std::vector<std::string> bars = flushBars(flushOf({60, 15, 5, 0}));
    REQUIRE(bars.size() == 4);
    CHECK_THAT(bars[0], Contains("Pass 1, wash: " + std::string(30, '#') + " 60 pieces, 30.0 mm²"));
    CHECK_THAT(bars[1],
               Contains(": " + std::string(8, '#') + " 15 pieces") && Contains("last / sum 20 %"));
    CHECK_THAT(bars[2], Contains(": ### 5 pieces") && Contains("last / sum 6 %"));
    CHECK_THAT(bars[3], Contains("wash: 0 pieces") && !Contains("#"));
    const Table table = flushTable(flushOf({60, 15}));
    REQUIRE(table.rows.size() == 2);
    CHECK(table.rows[1].size() == table.columns.size());
    CHECK(table.rows[1][1] == "15");
}

// Bars stand on one line and are as high as their counts: measured in the picture's own pixels.
TEST_CASE("the chart's bars are as high as the counts") {
    Picture picture(600, 200);
    drawFlushChart(picture.pen(), {{0.0, 0.0}, {600.0, 200.0}, 10.0}, flushOf({60, 30}).series);
    cv::Mat grey, bars;
    cv::cvtColor(picture.bgr(), grey, cv::COLOR_BGR2GRAY);
    cv::inRange(grey, 105, 125, bars); // the bars' own grey
    const cv::Mat aboveTheirWords = bars.rowRange(0, 165);
    const auto heightAt = [&](int x) { return cv::countNonZero(aboveTheirWords.col(x)); };
    const int first = heightAt(75), second = heightAt(275), none = heightAt(475);
    CHECK(first > 60);
    CHECK(second == Approx(first / 2.0).margin(2.0));
    CHECK(none <= 2);
}

TEST_CASE("a report shows the flush of a part in its text, its pages and its JSON") {
    ReportModel model = handMadeModel();
    model.flushes = {flushOf({60, 15, 5})};
    const std::string text = reportText(model);
    CHECK_THAT(text, Contains("FLUSH OF solenoid A") && Contains("0.75 mm and more") &&
                         Contains("Flush of solenoid A: clean. Pass 3"));
    const ReadPdf pdf = readPdf(pdfReport(model));
    for (const char* said : {"Flush of solenoid A", "Pieces that each pass washed out",
                             "20 % of all so far", "Flush of solenoid A: clean."}) {
        CAPTURE(said);
        CHECK(pdf.text.find(said) != std::string::npos);
    }
    const auto json = reportJson(model);
    CHECK(json.at("flushes").at(0).at("passes").at(2).at("pieces") == 5);
    CHECK(json.at("flushes").at(0).at("verdict") == "clean");
}

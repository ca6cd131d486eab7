// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/pdf_reader.h"
#include "report/pdf_report.h"
#include "report/work_sheet_pdf.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <sstream>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

WorkSheetJob tenSpeed() {
    WorkSheetJob job;
    job.names.unit = "Demo 10";
    job.names.gears = {"R"};
    for (int gear = 1; gear <= 10; ++gear)
        job.names.gears.push_back(fmt::format("{}", gear));
    for (const char letter : std::string("ABCDEFGH"))
        job.names.solenoids.emplace_back(1, letter);
    job.names.elements = {{"clutch", "P"}, {"clutch", "Q"}, {"clutch", "T"},
                          {"clutch", "U"}, {"brake", "X"},  {"brake", "Y"}};
    job.names.bores = {"main regulator", "converter regulator"};
    return job;
}

void checkInside(const ReadPdf& pdf) {
    for (const ReadPage& page : pdf.pages)
        for (const PlacedWord& word : page.words) {
            INFO(word.text);
            CHECK(word.right <= page.width);
            CHECK(word.bottom <= page.height);
        }
}

} // namespace

TEST_CASE("the work sheet of six gears fits on two pages of either paper") {
    for (const Paper& paper : {a4Paper, letterPaper}) {
        const ReadPdf pdf = readPdf(workSheetPdf({}, paper));
        CHECK(pdf.pages.size() <= 2);
        CHECK_THAT(pdf.text, Catch::Contains("Solenoids") && Catch::Contains("After the repair"));
        checkInside(pdf);
    }
}

TEST_CASE("the work sheet of a ten-speed unit has a row for each of its parts") {
    for (const Paper& paper : {a4Paper, letterPaper}) {
        const ReadPdf pdf = readPdf(workSheetPdf(tenSpeed(), paper));
        CHECK(pdf.pages.size() <= 3);
        CHECK_THAT(pdf.text, Catch::Contains("9-10") && Catch::Contains("main regulator") &&
                                 Catch::Contains("brake Y"));
        checkInside(pdf);
    }
}

TEST_CASE("no title of the work sheet is cut") {
    const std::string text = readPdf(workSheetPdf(tenSpeed(), a4Paper)).text;
    CHECK(text.find("\u2026") == std::string::npos); // an ellipsis stands where text was cut
    for (const SheetSection& section : workSheetSections(tenSpeed()))
        for (const SheetBlock& block : section.blocks)
            if (!block.rowTitle.empty())
                for (const std::string& title : gridTitles(block)) {
                    std::istringstream words(title);
                    for (std::string word; words >> word;) {
                        INFO(title);
                        CHECK_THAT(text, Catch::Contains(word));
                    }
                }
}

TEST_CASE("every row of the work sheet's grids has a cell under each title") {
    for (const SheetSection& section : workSheetSections({}))
        for (const SheetBlock& block : section.blocks)
            if (!block.rowTitle.empty())
                for (const auto& row : gridRows(block)) {
                    INFO(section.title);
                    CHECK(row.size() == gridTitles(block).size());
                }
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/hand_made.h"
#include "report/pdf_reader.h"
#include "report/pdf_report.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace swarfbook;
using namespace swarfbook::test;
using Catch::Matchers::Contains;

namespace {

/// Words that each occur once, so that one that is missing is noticed: "w1x w2x ...".
std::string countedWords(int count) {
    std::string text;
    for (int i = 1; i <= count; ++i)
        text += (i > 1 ? " w" : "w") + std::to_string(i) + "x";
    return text;
}

/// A word without blanks in which each part occurs once: "1y2y3y ...".
std::string longWord(int parts) {
    std::string text;
    for (int i = 1; i <= parts; ++i)
        text += std::to_string(i) + "y";
    return text;
}

/// The PDF's text without blanks: a long word is cut at line ends.
std::string unspacedTextOf(const ReadPdf& pdf) {
    std::string text = pdf.text;
    std::erase_if(text, [](char c) { return c == ' ' || c == '\n'; });
    return text;
}

std::string unspacedWords(std::string text) {
    std::erase(text, ' ');
    return text;
}

bool allInside(const ReadPdf& pdf) {
    for (const ReadPage& page : pdf.pages)
        for (const PlacedWord& word : page.words)
            if (word.left < pageMargin - 0.5 || word.right > page.width - pageMargin + 0.5 ||
                word.bottom > page.height - pageMargin + 3.0)
                return false;
    return true;
}

} // namespace

TEST_CASE("a word of over 400 letters wraps on the page and nothing of it is missing") {
    const std::string word = longWord(180);
    REQUIRE(word.size() > 400);
    ReportModel model = handMadeModel();
    model.job.complaint = "it " + word;
    model.observations = {{"bore", "note: " + word, "2025-03-14T10:00:00Z", "A. Example"}};
    model.notInspected = {word};
    const ReadPdf pdf = readPdf(pdfReport(model, a4Paper));
    CHECK(allInside(pdf));
    const std::string text = unspacedTextOf(pdf);
    std::size_t times = 0;
    for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1))
        ++times;
    CHECK(times >= 3); // complaint in full, observation, not looked at
}

TEST_CASE("a note longer than a page continues over pages, in a table as in a paragraph") {
    const std::string note = countedWords(1500);
    ReportModel model = handMadeModel();
    model.job.complaint = note;
    model.observations = {{note, "short", "2025-03-14T10:00:00Z", ""},
                          {"bore", note, "2025-03-14T10:00:00Z", ""}};
    const ReadPdf pdf = readPdf(pdfReport(model, a4Paper));
    CHECK(allInside(pdf));
    for (const int word : {1, 750, 1500}) {
        const std::string sought = "w" + std::to_string(word) + "x";
        CHECK_THAT(pdf.text, Contains(sought));
    }
    CHECK_THAT(unspacedTextOf(readPdf(pdfReport(
                   [&] {
                       ReportModel alone = handMadeModel();
                       alone.notInspected = {countedWords(300)};
                       return alone;
                   }(),
                   a4Paper))),
               Contains(unspacedWords(countedWords(300))));
}

TEST_CASE("control characters and marks of direction are drawn as escapes") {
    ReportModel model = handMadeModel();
    model.observations = {{"bore",
                           "a\x1b[31mb\xE2\x80\xAE"
                           "c\xFF",
                           "2025-03-14T10:00:00Z", ""}};
    const ReadPdf pdf = readPdf(pdfReport(model, a4Paper));
    CHECK_THAT(pdf.text, Contains("a\\u001b[31mb\\u202ec\\xff"));
}

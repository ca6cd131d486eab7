// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/customer_words.h"
#include "report/hand_made.h"
#include "report/pdf_reader.h"
#include "report/pdf_report.h"
#include "report/report_words.h"

#include <catch2/catch.hpp>
#include <opencv2/imgcodecs.hpp>

#include <algorithm>
// Needed by the headers that follow: pointers of the standard library.
#define POINTERHOLDER_TRANSITION 4
#include <qpdf/qpdf-c.h>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

/// The text without blanks, breaking or not: lines are broken at blanks and after hyphens.
std::string unspaced(const std::string& text) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i)
        if (text.compare(i, 2, "\u00a0") == 0)
            ++i;
        else if (text[i] != ' ' && text[i] != '\n')
            out += text[i];
    return out;
}

bool says(const std::string& text, const std::string& what) {
    return unspaced(text).find(unspaced(what)) != std::string::npos;
}

/// Words outside the margins, or over each other by more than the space in a line's box.
std::vector<std::string> badlyPlaced(const ReadPdf& pdf) {
    std::vector<std::string> bad;
    for (const ReadPage& page : pdf.pages)
        for (std::size_t i = 0; i < page.words.size(); ++i) {
            const PlacedWord& a = page.words[i];
            // The box of a letter is up to a fifth of its size higher than its ink.
            if (a.left < pageMargin - 0.5 || a.right > page.width - pageMargin + 0.5 ||
                a.top < pageMargin - 3.0 || a.bottom > page.height - pageMargin + 3.0)
                bad.push_back("outside: " + a.text);
            for (std::size_t j = i + 1; j < page.words.size(); ++j) {
                const PlacedWord& b = page.words[j];
                const double across = std::min(a.right, b.right) - std::max(a.left, b.left);
                const double along = std::min(a.bottom, b.bottom) - std::max(a.top, b.top);
                const double lower = std::min(a.bottom - a.top, b.bottom - b.top);
                if (across > 0.3 && along > 0.25 * lower)
                    bad.push_back("over each other: " + a.text + " and " + b.text);
            }
        }
    return bad;
}

/// The JPEG files embedded in a PDF: from their first bytes to their end mark.
std::vector<std::vector<unsigned char>> embeddedJpegs(const std::vector<unsigned char>& pdf) {
    const std::vector<unsigned char> start{0xFF, 0xD8, 0xFF}, end{0xFF, 0xD9};
    std::vector<std::vector<unsigned char>> found;
    auto at = pdf.begin();
    while ((at = std::search(at, pdf.end(), start.begin(), start.end())) != pdf.end()) {
        auto stop = std::search(at, pdf.end(), end.begin(), end.end());
        if (stop != pdf.end())
            stop += 2;
        found.emplace_back(at, stop);
        at = stop;
    }
    return found;
}

ReportModel bareModel() {
    ReportModel model;
    model.programVersion = "9.9.9";
    model.job.vehicle = "DEMO-01";
    model.job.visit = 1;
    model.job.date = "2025-01-02";
    model.verdict = verdictSentence(std::nullopt);
    model.noSuggestion = "Neither a photo that could be measured nor a test was recorded.";
    model.noComparison = "This is the vehicle's first visit.";
    model.trendSentence = "There is one visit only.";
    model.wearScore = NoWearScore{"no photo was taken", "Take one with the card."};
    return model;
}

ReportModel overlongModel() {
    ReportModel model = handMadeModel();
    const std::string word = "Unbrokenwordwithoutanyblankinit";
    std::string text;
    for (int i = 0; i < 60; ++i)
        text += "long text that goes on ";
    for (int i = 0; i < 8; ++i)
        model.job.vehicle += word;
    model.job.workshop = text;
    model.job.complaint = text + "\nwith a line break and bad bytes \xff\xfe";
    model.job.unit = model.job.lookedBy = word + word + word;
    model.suggestion->strongestReasons = {text, text};
    model.suggestion->strongestContrary = text;
    model.suggestion->nextTest = text;
    for (int i = 0; i < 40; ++i) {
        model.notInspected.push_back("part number " + std::to_string(i) + " " + text);
        model.observations.push_back({"bore", word + word + word + " " + text, "2025-06-14T10"});
        model.trend.push_back(model.trend.front());
    }
    return model;
}

} // namespace

TEST_CASE("the report says its verdict, reasons, suggestion and cautions") {
    const ReportModel model = handMadeModel();
    const ReadPdf pdf = readPdf(pdfReport(model));
    REQUIRE(pdf.pages.size() > 2);
    const std::string& first = pdf.pages.front().text;
    CHECK(says(first, "DEMO-03"));
    CHECK(says(first, "2025-06-14, visit 4"));
    CHECK(says(first, model.verdict));
    for (const std::string& reason : model.suggestion->strongestReasons)
        CHECK(says(first, reason));
    CHECK(says(first, model.suggestion->strongestContrary));
    CHECK(says(first, model.nextCheck));
    CHECK(says(pdf.text, "Not inspected: converter drain."));
    CHECK(says(pdf.text, "Signature"));
    CHECK(says(pdf.text, "Amount"));
    CHECK(says(pdf.text, std::string(standingLine())));
    for (const std::string& caution : cautionSentences(model))
        CHECK(says(pdf.text, caution));
    for (const std::string& sentence : methodSentences(model))
        CHECK(says(pdf.text, sentence));
    CHECK(says(pdf.text, "Could not be measured: The card's edges are 14 px wide. Hold the phone "
                         "still"));
    CHECK(says(pdf.text, "2.1 (1.2 to 4)"));
    CHECK(says(pdf.text, "solenoid A: 12.6 ohm at 80 C"));
    CHECK(says(pdf.text, std::string(64, '1')));
}

TEST_CASE("every page carries the job and its number") {
    const ReadPdf pdf = readPdf(pdfReport(handMadeModel()));
    const std::size_t count = pdf.pages.size();
    for (std::size_t i = 0; i < count; ++i) {
        if (i > 0) // page one begins with the job itself
            CHECK(says(pdf.pages[i].text, "Vehicle DEMO-03 \u00b7 visit 4 \u00b7 2025-06-14"));
        CHECK(says(pdf.pages[i].text,
                   "Page " + std::to_string(i + 1) + " of " + std::to_string(count)));
    }
}

TEST_CASE("all text lies inside the margins and none over other text, on A4 and Letter") {
    const Paper paper = GENERATE(a4Paper, letterPaper);
    for (const ReportModel& model : {handMadeModel(), bareModel(), overlongModel()}) {
        const ReadPdf pdf = readPdf(pdfReport(model, paper));
        CHECK(pdf.pages.front().width == Approx(paper.width).margin(0.1));
        CHECK(pdf.pages.front().height == Approx(paper.height).margin(0.1));
        CHECK(badlyPlaced(pdf) == std::vector<std::string>{});
    }
}

TEST_CASE("the customer's report has two or three pages with all that a customer needs to decide") {
    const ReportModel model = handMadeModel();
    const Paper paper = GENERATE(a4Paper, letterPaper);
    const ReadPdf pdf = readPdf(pdfReport(model, paper, Reader::customer));
    CHECK(pdf.pages.size() >= 2);
    CHECK(pdf.pages.size() <= 3);
    const std::string& first = pdf.pages.front().text;
    CHECK(says(first, model.verdict));
    CHECK(says(first, "Now: 18 pieces; the 6 largest are shown"));
    CHECK(says(first, "Last visit, 2022-05-02: the largest pieces"));
    CHECK(says(first, "a pencil lead, 0.7 mm thick"));
    CHECK(says(first, "Wear score"));
    for (const char* title : {"What waiting risks", "What was not looked at or is not known",
                              "Price", "Total, tax included", "Signature", "Amount"})
        CHECK(says(pdf.text, title));
    CHECK(says(pdf.text, waitingSentence(model.suggestion)));
    CHECK(says(pdf.text, "Not inspected: converter drain."));
    CHECK_FALSE(says(pdf.text, "SHA-256"));
    CHECK_FALSE(says(pdf.text, "ISO 16232"));
}

TEST_CASE("the customer's report leaves nothing out, however long it is") {
    const ReadPdf pdf = readPdf(pdfReport(overlongModel(), a4Paper, Reader::customer));
    CHECK(says(pdf.text, "Signature"));
    CHECK(says(pdf.text, "part number 39"));
    CHECK(badlyPlaced(pdf) == std::vector<std::string>{});
}

TEST_CASE("a table that fits on a page is not split") {
    ReportModel model = handMadeModel();
    for (int i = 0; i < 30; ++i)
        model.observations.push_back({"bore", "row " + std::to_string(i) + "x", "2025-06-14T10"});
    const ReadPdf pdf = readPdf(pdfReport(model));
    int pagesWithRows = 0;
    for (const ReadPage& page : pdf.pages)
        pagesWithRows += says(page.text, "row 0x") || says(page.text, "row 29x") ? 1 : 0;
    CHECK(pagesWithRows == 1);
}

TEST_CASE("without evidence the report says that there is no verdict") {
    const ReadPdf pdf = readPdf(pdfReport(bareModel()));
    CHECK(says(pdf.pages.front().text, "No verdict"));
    CHECK(says(pdf.pages.front().text, "nor a test was recorded"));
    CHECK(says(pdf.text, "No photo was taken at this visit"));
    CHECK(says(pdf.text, "Not computed: No photo was taken."));
}

TEST_CASE("the PDF is marked as tagged, in English, for screen readers, and stays the same") {
    const std::vector<unsigned char> bytes = pdfReport(handMadeModel());
    qpdf_data document = qpdf_init();
    REQUIRE(qpdf_read_memory(document, "report", reinterpret_cast<const char*>(bytes.data()),
                             bytes.size(), nullptr) == QPDF_SUCCESS);
    const qpdf_oh root = qpdf_get_root(document);
    const auto entry = [&](const char* key) -> std::string {
        return qpdf_oh_unparse(document, qpdf_oh_get_key(document, root, key));
    };
    CHECK(entry("/MarkInfo") == "<< /Marked true >>");
    CHECK(entry("/StructTreeRoot") != "null");
    CHECK(entry("/Lang") == "(en)");
    qpdf_cleanup(&document);
    CHECK(pdfReport(handMadeModel()) == bytes);
}

TEST_CASE("the PDF has a title, the workshop as author and tags, no date, and no EXIF") {
    const std::vector<unsigned char> bytes = pdfReport(handMadeModel());
    const ReadPdf pdf = readPdf(bytes);
    std::vector<std::string> keys = pdf.infoKeys;
    std::sort(keys.begin(), keys.end());
    CHECK(keys == std::vector<std::string>{"Author", "Producer", "Title"});
    CHECK(pdf.title == "Transmission inspection, vehicle DEMO-03, 2025-06-14");
    CHECK(pdf.author == "Kestrel Lane Transmissions");
    CHECK(pdf.producer.find("cairo") == 0);
    // ISO 32000-1, 14.8: a tagged document has a structure tree.
    const std::string tree = "/StructTreeRoot";
    CHECK(std::search(bytes.begin(), bytes.end(), tree.begin(), tree.end()) != bytes.end());

    const auto pictures = embeddedJpegs(bytes);
    // Two samples with two pictures each, their crops, before and now.
    CHECK(pictures.size() > 6);
    const std::string exif = "Exif";
    for (const std::vector<unsigned char>& picture : pictures) {
        CHECK(std::search(picture.begin(), picture.end(), exif.begin(), exif.end()) ==
              picture.end());
        CHECK_FALSE(cv::imdecode(picture, cv::IMREAD_COLOR).empty());
    }
}

TEST_CASE("plate and VIN are printed when the model holds them, and only then") {
    ReportModel model = handMadeModel();
    CHECK_FALSE(says(readPdf(pdfReport(model)).text, "Plate"));
    model.job.plate = "INVENTED 1";
    model.job.vin = "NOT-A-REAL-VIN-0";
    const ReadPdf pdf = readPdf(pdfReport(model));
    CHECK(says(pdf.pages.front().text, "INVENTED 1"));
    CHECK(says(pdf.pages.front().text, "NOT-A-REAL-VIN-0"));
    for (std::size_t i = 1; i < pdf.pages.size(); ++i)
        CHECK_FALSE(says(pdf.pages[i].text, "INVENTED 1"));
}

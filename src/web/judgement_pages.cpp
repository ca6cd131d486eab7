// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "base/shown_units.h"
#include "elimination/elimination.h"
#include "entry/keep_observation.h"
#include "entry/measure_for_book.h"
#include "judgement/judge_visit.h"
#include "record/unit_charts.h"
#include "report/elimination_table.h"
#include "report/learned_cases.h"
#include "report/pdf_report.h"
#include "report/picture_bytes.h"
#include "report/report_from_book.h"
#include "report/report_picture.h"
#include "report/report_text.h"
#include "report/report_words.h"
#include "report/short_text.h"
#include "report/work_sheet_pdf.h"
#include "web/html.h"
#include "web/pages.h"

#include <fmt/format.h>

namespace swarfbook::web {
namespace {

std::string additions(const Suggestion& s) {
    std::vector<std::string> lines;
    if (s.converter || s.converterAsOption)
        lines.push_back(fmt::format("{}: {}", s.converter ? "Converter" : "Converter, as an option",
                                    s.converterWhy));
    if (s.cooler || s.coolerAsOption)
        lines.push_back(
            fmt::format("{}: {}", s.cooler ? "Cooler" : "Cooler, to be decided", s.coolerWhy));
    return listUnder("Part of the job", lines);
}

std::string turns(const Suggestion& s) {
    std::vector<std::string> lines{s.wouldChange};
    for (const std::string& sentence : turnSentences(s))
        lines.push_back(sentence);
    return listUnder("What would change it", lines);
}

std::string verdictOf(const Suggestion& s) {
    std::string verdict;
    if (!s.heldRepair.empty())
        verdict += notice("note", fmt::format("The repair held ({}). The evidence from before it "
                                              "says what follows.",
                                              s.heldRepair));
    verdict += "<p class=\"verdict\">" + escaped(headline(s)) + "</p>";
    if (!s.overruled.empty())
        verdict += notice("note", "The technician decides otherwise: " + s.overruled);
    return verdict;
}

std::string suggestionBody(const Judgement& judgement) {
    const Suggestion& s = judgement.suggestion;
    const bool open = s.outcome == Recommendation::notEnoughEvidence;
    std::string body = verdictOf(s) + listUnder("Why", s.strongestReasons);
    if (!open || !s.strongestContrary.empty())
        body += listUnder("Evidence against",
                          {s.strongestContrary.empty() ? "No evidence against it was recorded."
                                                       : s.strongestContrary});
    body += listUnder(open ? "Next test" : "Before the job", {s.nextTest}) + turns(s) +
            listUnder("Left by elimination", s.suspects) + listUnder("Track record", s.learned) +
            additions(s) + listUnder("Inspected or renewed with it", s.scope) +
            listUnder("For the customer to sign", {s.customersRisk});
    if (s.recheckAfter)
        body += listUnder("Look again", {"After " + distanceWords(s.recheckAfter->value()) + "."});
    return body + listUnder("Wear score", {wearWords(judgement.wear)}) +
           listUnder("Not known", s.notKnown) + listUnder("Cautions", s.cautions);
}

std::vector<std::string> reasonsOf(const Suggestion& s) {
    std::vector<std::string> lines;
    for (const Reason& reason : s.all)
        lines.push_back((reason.supports ? "For: " : "Against: ") + reason.sentence);
    return lines;
}

/// The elimination as the command line prints it; "" if nothing faulty was recorded.
std::string eliminationSection(const std::optional<Elimination>& found) {
    if (!found)
        return {};
    std::string rows;
    for (const auto& row : eliminationRows(*found)) {
        const char* cell = rows.empty() ? "th" : "td";
        rows += "<tr>";
        for (const std::string& text : row)
            rows += fmt::format("<{0}>{1}</{0}>", cell, escaped(text));
        rows += "</tr>";
    }
    std::vector<std::string> tests;
    for (const TestChoice& test : found->tests)
        tests.push_back(testInWords(test));
    return fmt::format("<details><summary>Parts by gear</summary><p>{}</p><div class=\"wide\" "
                       "tabindex=\"0\" role=\"region\" aria-label=\"Parts by gear\"><table>{}"
                       "</table></div><p>{}</p>{}{}</details>",
                       escaped(found->summary), rows, escaped(eliminationLegend()),
                       listUnder("Suspect and cleared parts", eliminationSentences(*found)),
                       listUnder("Tests that would help, the most useful per minute first", tests));
}

ReportModel modelOf(const Book& book, std::int64_t visit) {
    const WorkshopSettings set = book.settings();
    return reportFromBook(book, visit,
                          {dataFolder() / "models", programVersion(), set.workshop, false,
                           set.address, set.telephone});
}

Answer asFile(std::string type, const std::string& name, std::string bytes) {
    return {200,
            std::move(type),
            std::move(bytes),
            {{"Content-Disposition", "inline; filename=\"" + name + "\""}}};
}

Paper paperOf(const Book& book) {
    return book.settings().paper == "letter" ? letterPaper : a4Paper;
}

std::string textOf(const std::vector<unsigned char>& bytes) {
    return {bytes.begin(), bytes.end()};
}

} // namespace

Answer suggestionPage(Workshop& workshop, std::int64_t visit) {
    return workshop.book.read([&](const Book& book) {
        const auto folder = dataFolder() / "models";
        const JudgementModels models = loadJudgementModels(folder);
        const Evidence evidence = evidenceWithUnit(book, visit, folder);
        const Judgement judgement = judgeVisit(evidence, models, learnedCases(book, models.rules));
        return page({"Suggestion",
                     suggestionBody(judgement) + "<details><summary>Every reason</summary>" +
                         listUnder("All of them", reasonsOf(judgement.suggestion)) + "</details>" +
                         eliminationSection(judgement.elimination) +
                         notice("note", std::string(standingLine())),
                     fmt::format("/visit/{}", visit), fmt::format("Visit {}", visit)});
    });
}

Answer reportPage(Workshop& workshop, std::int64_t visit) {
    return workshop.book.read([&](const Book& book) {
        const std::string file = fmt::format("/visit/{}/report.", visit);
        return page({"Report",
                     "<p class=\"buttons\">" +
                         button(file + "pdf?for=customer", "PDF for the customer", true) +
                         button(file + "pdf?for=workshop", "PDF for the workshop") +
                         button(file + "png", "Picture for a message") +
                         button(file + "txt", "Text for a quote") +
                         button(file + "txt?full=1", "Whole text") +
                         button(fmt::format("/visit/{}/sheet.pdf", visit), "Work sheet to print") +
                         "</p><section><h2>Text for a quote</h2><pre tabindex=\"0\">" +
                         escaped(shortReportText(modelOf(book, visit))) + "</pre></section>",
                     fmt::format("/visit/{}", visit), fmt::format("Visit {}", visit)});
    });
}

Answer reportFile(Workshop& workshop, std::int64_t visit, const Asked& asked) {
    return workshop.book.read([&](const Book& book) {
        const ReportModel model = modelOf(book, visit);
        const std::string name = fmt::format("report-visit-{}", visit);
        if (asked.path.ends_with(".txt"))
            return asked.said("full") == "1"
                       ? asFile("text/plain; charset=utf-8", name + "-whole.txt", reportText(model))
                       : asFile("text/plain; charset=utf-8", name + ".txt", shortReportText(model));
        if (asked.path.ends_with(".png"))
            return asFile("image/png", name + ".png", textOf(pngBytes(reportPicture(model))));
        const Reader reader = asked.said("for") == "customer" ? Reader::customer : Reader::workshop;
        return asFile("application/pdf",
                      name + (reader == Reader::customer ? "-customer.pdf" : "-workshop.pdf"),
                      textOf(pdfReport(model, paperOf(book), reader)));
    });
}

Answer workSheetFile(Workshop& workshop, std::int64_t number) {
    return workshop.book.read([&](const Book& book) {
        WorkSheetJob job = sheetJobOf(book, book.visit(number));
        job.workshop = book.settings().workshop;
        return asFile("application/pdf", fmt::format("work-sheet-visit-{}.pdf", number),
                      textOf(workSheetPdf(job, paperOf(book))));
    });
}

} // namespace swarfbook::web

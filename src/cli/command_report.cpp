// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/command_report.h"

#include "assess/assess.h"
#include "base/errors.h"
#include "base/outputs.h"
#include "cli/open_book.h"
#include "cli/parsed_options.h"
#include "cli/terminal.h"
#include "cli/visit_meant.h"
#include "entry/keep_observation.h"
#include "entry/measure_for_book.h"
#include "report/pdf_report.h"
#include "report/picture_bytes.h"
#include "report/report_from_book.h"
#include "report/report_json.h"
#include "report/report_picture.h"
#include "report/report_text.h"
#include "report/short_text.h"
#include "report/work_sheet_pdf.h"

#include <fmt/format.h>

#include <cstdlib>
#include <filesystem>
#include <iostream>

namespace swarfbook::cli {
namespace {

namespace po = boost::program_options;
namespace fs = std::filesystem;

/// The workshop's name as given, else as the environment says; nothing where neither does.
std::optional<std::string> workshopName(const ParsedOptions& words) {
    if (has(words, "workshop"))
        return textOf(words, "workshop");
    const char* fromEnvironment = std::getenv("SWARFBOOK_WORKSHOP");
    return fromEnvironment == nullptr ? std::nullopt : std::optional<std::string>(fromEnvironment);
}

void requirePdfName(const fs::path& file) {
    if (file.extension() != ".pdf" && file.extension() != ".PDF")
        throw UsageError(fmt::format("\"{}\" does not end in .pdf. Write --out report.pdf; a "
                                     "picture is made by --picture report.png.",
                                     file.string()));
}

class ReportCommand : public Command {
  public:
    [[nodiscard]] po::options_description options() const override {
        po::options_description all("options");
        auto add = all.add_options();
        const auto text = [] { return po::value<std::string>(); };
        addVisitOptions(all);
        add("out", text(), "write the report to this PDF file");
        add("for", text(),
            "of the PDF: customer (two to three pages to hand over) or workshop (the same and all "
            "the evidence; default)");
        add("paper", text(), "of the PDF: a4 or letter (else as the book's settings say, else a4)");
        add("picture", text(), "write one picture for a message, .png or .jpg, 1080 px wide");
        add("force", "replace files that are there already");
        add("text", "as plain text of at most 15 lines, to paste into a quote");
        add("full", "with --text: everything");
        add("json", "as JSON");
        add("work-sheet",
            "instead: a sheet to print before the job starts and fill in by hand, with "
            "--out or --text; --visit or --vehicle fills in its head and its rows by the unit's "
            "chart");
        add("with-plate", "print the vehicle's plate and VIN, which are left out otherwise");
        add("workshop", text(),
            "the workshop's name (else $SWARFBOOK_WORKSHOP, else as the book's settings say)");
        add("book", text(),
            "the book's folder (else $SWARFBOOK_BOOK, else swarfbook in the user's "
            "data folder)");
        return all;
    }

    void parse(const ParsedOptions& words) override {
        workSheet_ = has(words, "work-sheet");
        asked_ = visitAsked(words);
        usesBook_ = !workSheet_ || asked_.number || asked_.vehicle;
        pdf_ = textOf(words, "out");
        picture_ = textOf(words, "picture");
        text_ = has(words, "text");
        json_ = has(words, "json");
        full_ = has(words, "full");
        if (full_ && (!text_ || workSheet_))
            throw UsageError("--full goes with --text: swarfbook report --text --full. A PDF with "
                             "everything is --out report.pdf --for workshop.");
        setReader(words);
        if (workSheet_ && (json_ || !picture_.empty()))
            throw UsageError("A work sheet is written to paper: --out sheet.pdf, or --text.");
        if (pdf_.empty() && picture_.empty() && !text_ && !json_)
            throw UsageError("Say what to write: --out report.pdf, --picture report.png, --text "
                             "or --json.");
        if (text_ && json_)
            throw UsageError("Text and JSON both go to the standard output: give one of them.");
        if (!pdf_.empty())
            requirePdfName(pdf_);
        if (!picture_.empty())
            requirePictureName(picture_);
        setPaper(words);
        if (has(words, "force"))
            outputs_ = Outputs(IfThere::replace);
        withPlate_ = has(words, "with-plate");
        workshop_ = workshopName(words);
        book_ = maybeTextOf(words, "book");
    }

    int run() override {
        planOutputs();
        if (workSheet_)
            return writeWorkSheet();
        const Book book = bookToRead(book_);
        visit_ = visitMeant(book, asked_).id;
        const WorkshopSettings set = book.settings();
        takeSettings(set);
        const ReportModel model =
            reportFromBook(book, visit_,
                           {dataFolder() / "models", programVersion(), workshop_.value_or(""),
                            withPlate_, set.address, set.telephone});
        if (!pdf_.empty()) {
            outputs_.write(pdf_, pdfReport(model, paper_, reader_));
            talk() << fmt::format("Saved {}: the report on visit {}\n", pdf_.string(), visit_);
            nowKept(fmt::format("Saved {}.", pdf_.string()));
        }
        if (!picture_.empty()) {
            outputs_.write(picture_, pictureBytes(picture_, reportPicture(model)));
            talk() << fmt::format("Saved {}: the picture for a message\n", picture_.string());
            nowKept(fmt::format("Saved {}.", picture_.string()));
        }
        if (text_)
            std::cout << (full_ ? reportText(model) : shortReportText(model));
        if (json_)
            std::cout << reportJson(model).dump(2, ' ', false,
                                                nlohmann::json::error_handler_t::replace)
                      << "\n";
        return done;
    }

  private:
    void planOutputs() {
        if (usesBook_)
            outputs_.addBook(bookFolder(book_));
        for (const fs::path& file : {pdf_, picture_})
            if (!file.empty())
                outputs_.plan(file);
    }

    int writeWorkSheet() {
        WorkSheetJob job;
        if (usesBook_) {
            const Book book = bookToRead(book_);
            takeSettings(book.settings());
            job = sheetJobOf(book, visitMeant(book, asked_));
        }
        job.workshop = workshop_.value_or("");
        if (!pdf_.empty()) {
            outputs_.write(pdf_, workSheetPdf(job, paper_));
            talk() << fmt::format("Saved {}: the work sheet\n", pdf_.string());
            nowKept(fmt::format("Saved {}.", pdf_.string()));
        }
        if (text_)
            std::cout << workSheetText(job);
        return done;
    }

    void setReader(const ParsedOptions& words) {
        if (!has(words, "for"))
            return;
        const std::string reader = textOf(words, "for");
        if (reader != "customer" && reader != "workshop")
            throw UsageError(fmt::format(
                "\"{}\" is not a reader of the report. Say --for customer or --for workshop.",
                reader));
        if (pdf_.empty() || workSheet_)
            throw UsageError("--for goes with a report's PDF: --out report.pdf --for " + reader +
                             ".");
        reader_ = reader == "customer" ? Reader::customer : Reader::workshop;
    }

    void setPaper(const ParsedOptions& words) {
        paperAsked_ = has(words, "paper");
        const std::string paper = paperAsked_ ? textOf(words, "paper") : "a4";
        if (paper != "a4" && paper != "letter")
            throw UsageError(fmt::format("\"{}\" is not a paper size. Say a4 or letter.", paper));
        paper_ = paper == "letter" ? letterPaper : a4Paper;
    }

    /// What was not said in this command is as the book's settings say.
    void takeSettings(const WorkshopSettings& set) {
        if (!workshop_)
            workshop_ = set.workshop;
        if (!paperAsked_ && set.paper == "letter")
            paper_ = letterPaper;
    }

    VisitAsked asked_;
    bool usesBook_ = true;   ///< a bare work sheet needs none
    std::int64_t visit_ = 0; ///< that was meant
    fs::path pdf_, picture_;
    bool text_ = false, json_ = false, full_ = false, withPlate_ = false, workSheet_ = false;
    Reader reader_ = Reader::workshop;
    Paper paper_ = a4Paper;
    Outputs outputs_;
    std::optional<std::string> workshop_;
    bool paperAsked_ = false;
    std::optional<std::string> book_;
};

} // namespace

CommandEntry reportEntry() {
    return {"report", "Write the report on a visit: PDF, text, picture or JSON",
            "swarfbook report [--visit N] [--out FILE.pdf [--for customer]] [--picture FILE.png] "
            "[--text [--full] | --json] [--force] [options]\n"
            "       swarfbook report --work-sheet --out FILE.pdf [--visit N]",
            "swarfbook report --visit 1 --out report.pdf --book trial-book",
            []() -> Command* { return new ReportCommand; }};
}

} // namespace swarfbook::cli

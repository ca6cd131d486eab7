// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/pdf_reader.h"
#include "report/pdf_report.h"
#include "report/report_text.h"
#include "report/trial_report_book.h"
#include "report/work_done.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

AfterRepair worked(const std::vector<std::string>& work) {
    AfterRepair after;
    after.did = "clean and refit";
    after.work = work;
    return after;
}

} // namespace

TEST_CASE("the customer reads what was done, each thing once, and nothing that was not done") {
    TrialBook trial;
    const std::int64_t visit = trial.visit("2025-01-10", 50000.0, 20000.0);
    trial.photo(visit, 12);
    trial.observe(visit, worked({"filter renewed", "neck seal renewed"}));
    trial.observe(visit, worked({"filter renewed", "magnet cleaned"}));
    AfterRepair left;
    left.adaptation = AdaptationDone::notDone;
    left.selectorCycled = false;
    trial.observe(visit, left);
    const ReportModel model = reportFromBook(trial.book(), visit, options());
    CHECK(model.workDone ==
          std::vector<std::string>{"Filter renewed.", "Neck seal renewed.", "Magnet cleaned."});
    const std::string pdf = readPdf(pdfReport(model, a4Paper, Reader::customer)).text;
    CHECK(pdf.find("What was done") != std::string::npos);
    CHECK(pdf.find("Neck seal renewed.") != std::string::npos);
    CHECK(reportText(model).find("WHAT WAS DONE") != std::string::npos);
}

TEST_CASE("without work the report has no heading for it") {
    TrialBook trial;
    const std::int64_t visit = trial.visit("2025-01-10", 50000.0, 20000.0);
    trial.photo(visit, 12);
    const ReportModel model = reportFromBook(trial.book(), visit, options());
    CHECK(model.workDone.empty());
    CHECK(readPdf(pdfReport(model, a4Paper, Reader::customer)).text.find("What was done") ==
          std::string::npos);
}

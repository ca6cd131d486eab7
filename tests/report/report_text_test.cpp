// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/run_program.h"
#include "report/hand_made.h"
#include "report/report_text.h"
#include "report/short_text.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace swarfbook;
using namespace swarfbook::test;

// The approved text was read and judged by a person; it changes only on purpose.
TEST_CASE("the text of a hand-made report is the approved one") {
    const std::string approved =
        contentOf(SWARFBOOK_SOURCE_DIR "/tests/report/approved/report.txt");
    REQUIRE_FALSE(approved.empty());
    CHECK(reportText(handMadeModel()) == approved);
}

TEST_CASE("the text for a quote has 15 lines at most and gives the decisive facts, whatever the "
          "visit holds") {
    ReportModel model = handMadeModel();
    if (GENERATE(false, true)) {
        model.notInspected.assign(40, "a part");
        model.suggestion->strongestReasons.assign(9, "One more reason.");
        model.suggestion->scope.assign(9, "One more job.");
        model.job.complaint = "slips\nand slips\nagain";
        model.job.plate = "INVENTED 7";
    }
    const std::string text = shortReportText(model);
    INFO(text);
    CHECK(std::count(text.begin(), text.end(), '\n') <= static_cast<long>(mostShortLines));
    CHECK(text.find(model.verdict) != std::string::npos);
    CHECK(text.find("We suggest: Clean, new filter and seals, refit.") != std::string::npos);
    CHECK(text.find("If you wait: ") != std::string::npos);
    CHECK(text.find(model.nextCheck) != std::string::npos);
    CHECK(text.find("does not replace") != std::string::npos);
}

TEST_CASE("typed line breaks and control characters do not break the text's lines") {
    ReportModel model = handMadeModel();
    model.job.complaint = "slips\nVERDICT\x1b[2J all is well";
    const std::string text = reportText(model);
    CHECK(text.find("Complaint: slips VERDICT\\u001b[2J all is well\n") != std::string::npos);
    CHECK(text.find('\x1b') == std::string::npos);
}

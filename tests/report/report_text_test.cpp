// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/run_program.h"
#include "report/hand_made.h"
#include "report/report_text.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;

// The approved text was read and judged by a person; it changes only on purpose.
TEST_CASE("the text of a hand-made report is the approved one") {
    const std::string approved =
        contentOf(SWARFBOOK_SOURCE_DIR "/tests/report/approved/report.txt");
    REQUIRE_FALSE(approved.empty());
    CHECK(reportText(handMadeModel()) == approved);
}

TEST_CASE("typed line breaks and control characters do not break the text's lines") {
    ReportModel model = handMadeModel();
    model.job.complaint = "slips\nVERDICT\x1b[2J all is well";
    const std::string text = reportText(model);
    CHECK(text.find("Complaint: slips VERDICT\\u001b[2J all is well\n") != std::string::npos);
    CHECK(text.find('\x1b') == std::string::npos);
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/run_program.h"
#include "report/hand_made.h"
#include "report/report_json.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;
using nlohmann::json;

// The approved document was read and judged by a person; within one version it may only grow.
TEST_CASE("the JSON of a hand-made report is the approved one") {
    const std::string approved =
        contentOf(SWARFBOOK_SOURCE_DIR "/tests/report/approved/report.json");
    REQUIRE_FALSE(approved.empty());
    CHECK(reportJson(handMadeModel()).dump(2) + "\n" == approved);
}

TEST_CASE("an unknown value is null in the JSON, never zero") {
    ReportModel model = handMadeModel();
    model.job.odometerKm.reset();
    model.job.sinceCleanKm.reset();
    model.suggestion.reset();
    const json document = reportJson(model);
    CHECK(document["format"] == "swarfbook report 2");
    CHECK(document["job"]["odometer_km"].is_null());
    CHECK(document["job"]["since_clean_km"].is_null());
    CHECK(document["suggestion"].is_null());
    CHECK(document["comparison"]["changes"][1]["ratio"].is_null());
    CHECK(document["comparison"]["changes"][1]["interval_95"][1].is_null());
    CHECK_FALSE(document["samples"][2].contains("counts"));
    CHECK(document["samples"][2]["refusal"]["reason"] == "blurred");
    CHECK_FALSE(document["job"].contains("plate"));
}

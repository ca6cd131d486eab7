// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "bench/observation.h"
#include "cli/run_program.h"
#include "report/pdf_reader.h"
#include "report/pdf_report.h"
#include "report/report_json.h"
#include "report/report_picture.h"
#include "report/report_text.h"
#include "report/trial_report_book.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;

TEST_CASE("a visit with neither photo nor observation is not reported") {
    TrialBook trial;
    const std::int64_t visit = trial.visit("2025-01-10", 50000.0, 20000.0);
    CHECK_THROWS_AS(reportFromBook(trial.book(), visit, options()), EvidenceRefused);
    CHECK_THROWS_AS(reportFromBook(trial.book(), visit + 1, options()), UsageError);
}

TEST_CASE("an observation alone makes a report, which says that no photo was taken") {
    TrialBook trial;
    const std::int64_t visit = trial.visit("2025-01-10", 50000.0, std::nullopt);
    trial.observe(visit, NotInspected{"filter"});
    const ReportModel model = reportFromBook(trial.book(), visit, options());
    CHECK_FALSE(model.suggestion);
    CHECK(model.verdict.find("No verdict") == 0);
    CHECK_FALSE(model.noSuggestion.empty());
    CHECK(model.samples.empty());
    CHECK(model.notInspected == std::vector<std::string>{"filter"});
    CHECK(std::holds_alternative<NoWearScore>(model.wearScore));
}

TEST_CASE("plate and VIN reach no kind of report unless asked for") {
    TrialBook trial;
    const std::int64_t visit = trial.visit("2025-01-10", 50000.0, 20000.0);
    trial.photo(visit, 12);
    const ReportModel model = reportFromBook(trial.book(), visit, options());
    const std::string pdf = readPdf(pdfReport(model)).text;
    for (const std::string& text : {reportText(model), reportJson(model).dump(), pdf}) {
        CHECK(text.find("DEMO-07") != std::string::npos);
        CHECK(text.find("INVENTED") == std::string::npos);
        CHECK(text.find(vin) == std::string::npos);
    }
    ReportOptions asked = options();
    asked.withPlate = true;
    const ReportModel open = reportFromBook(trial.book(), visit, asked);
    CHECK(reportText(open).find(plate) != std::string::npos);
    CHECK(reportJson(open)["job"]["vin"] == vin);
}

TEST_CASE("two visits are shown side by side at one scale and compared") {
    TrialBook trial;
    trial.photo(trial.visit("2024-01-10", 50000.0, 20000.0), 10);
    const std::int64_t now = trial.visit("2025-01-10", 70000.0, 20000.0);
    trial.photo(now, 60);
    const ReportModel model = reportFromBook(trial.book(), now, options());
    REQUIRE(model.comparison);
    CHECK(model.comparison->compared);
    CHECK(model.comparison->before.size() == model.comparison->now.size());
    CHECK_FALSE(model.comparison->now.empty());
    // Six times as many pieces over the same distance.
    REQUIRE_FALSE(model.comparison->changes.empty());
    const ReportedChange& all = model.comparison->changes.front();
    CHECK(all.before == 10);
    CHECK(all.now == 60);
    CHECK(all.ratio.value() == Approx(6.0));
    CHECK(all.proven);
    REQUIRE(model.trend.size() == 2);
    CHECK(std::get<WearScore>(model.trend[1].score).value >
          std::get<WearScore>(model.trend[0].score).value);
    CHECK(model.trendSentence.find("four visits") != std::string::npos);
}

TEST_CASE("samples taken in another way are shown, not compared, and the reason is said") {
    TrialBook trial;
    trial.photo(trial.visit("2024-01-10", 50000.0, 20000.0), 10, "half of the pan");
    const std::int64_t now = trial.visit("2025-01-10", 70000.0, 20000.0);
    trial.photo(now, 60);
    const ReportModel model = reportFromBook(trial.book(), now, options());
    REQUIRE(model.comparison);
    CHECK_FALSE(model.comparison->compared);
    CHECK_FALSE(model.comparison->before.empty());
    CHECK(model.comparison->changes.empty());
    CHECK(model.comparison->sentence.find("cannot be compared") != std::string::npos);
    CHECK(std::holds_alternative<NoWearScore>(model.trend[0].score));
}

TEST_CASE("four comparable visits give a trend") {
    TrialBook trial;
    std::int64_t now = 0;
    for (int i = 0; i < 4; ++i) {
        now = trial.visit("202" + std::to_string(i + 1) + "-05-10", 40000.0 + 20000.0 * i, 20000.0);
        trial.photo(now, 8 + 25 * i);
    }
    const ReportModel model = reportFromBook(trial.book(), now, options());
    REQUIRE(model.trend.size() == 4);
    CHECK(model.trendSentence.find("Perhaps rising, but 4 visits cannot prove it") !=
          std::string::npos);
}

TEST_CASE("a photo whose original is gone keeps its numbers and the report says so") {
    TrialBook trial;
    const std::int64_t visit = trial.visit("2025-01-10", 50000.0, 20000.0);
    trial.photo(visit, 12);
    std::filesystem::remove_all(trial.folder().path() / "photos");
    const ReportModel model = reportFromBook(trial.book(), visit, options());
    REQUIRE(model.samples.size() == 1);
    CHECK(model.samples[0].plain.empty());
    CHECK(model.samples[0].debris.particles.size() == 12);
    REQUIRE_FALSE(model.notKnown.empty());
    CHECK(model.notKnown[0].find("without pictures") != std::string::npos);
    CHECK_NOTHROW(pdfReport(model));
    CHECK_NOTHROW(reportPicture(model));
}

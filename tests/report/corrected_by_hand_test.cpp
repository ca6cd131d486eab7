// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/wear_score.h"
#include "report/report_json.h"
#include "report/trial_report_book.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

/// Twenty large pieces of bright metal, which a suggestion rests on.
std::int64_t metalVisit(TrialBook& trial) {
    const std::int64_t visit = trial.visit("2025-01-10", 60000.0, 10000.0);
    std::vector<Particle> pieces;
    for (int i = 0; i < 20; ++i)
        pieces.push_back(
            roundParticle(i + 1, TrialBook::placeOfPiece(i), 0.8, ParticleType::brightMetal));
    trial.photo(visit, pieces);
    trial.observe(visit, FingerTest{Feel::felt});
    return visit;
}

double scoreOf(const ReportModel& model) {
    REQUIRE(std::holds_alternative<WearScore>(model.wearScore));
    return std::get<WearScore>(model.wearScore).value;
}

} // namespace

TEST_CASE("wear score and suggestion follow a correction by hand, and its undo") {
    TrialBook trial;
    const std::int64_t visit = metalVisit(trial);
    const auto report = [&] { return reportFromBook(trial.book(), visit, options()); };
    const ReportModel before = report();
    REQUIRE(before.suggestion);
    for (int i = 0; i < 18; ++i)
        trial.correct(visit, TrialBook::placeOfPiece(i), "not debris");
    const ReportModel without = report();
    CHECK(scoreOf(without) < scoreOf(before));
    REQUIRE(without.suggestion);
    CHECK(toJson(*without.suggestion) != toJson(*before.suggestion));
    CHECK(without.samples.front().byHand.size() == 18);

    for (int i = 0; i < 20; ++i)
        trial.correct(visit, TrialBook::placeOfPiece(i), "lining");
    const ReportModel lining = report();
    CHECK(toJson(*lining.suggestion) != toJson(*before.suggestion));
    CHECK(toJson(*lining.suggestion) != toJson(*without.suggestion));

    for (int i = 0; i < 20; ++i)
        trial.correct(visit, TrialBook::placeOfPiece(i), "");
    CHECK(reportJson(report()) == reportJson(before));
}

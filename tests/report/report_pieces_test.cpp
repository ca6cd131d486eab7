// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/report_pieces.h"
#include "report/report_words.h"
#include "report/trial_report_book.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

std::vector<Particle> alikePieces(int count, double radius, ParticleType type) {
    std::vector<Particle> all;
    for (int i = 0; i < count; ++i)
        all.push_back(roundParticle(i + 1, TrialBook::placeOfPiece(i), radius, type));
    return all;
}

/// Bright metal of 1.6 mm: more than wear dust, so the suggestion rests on it.
ReportModel withLargeMetal(TrialBook& trial) {
    const std::int64_t before = trial.visit("2024-01-10", 50000.0, 20000.0);
    trial.photo(before, alikePieces(3, 0.2, ParticleType::brightMetal));
    const std::int64_t now = trial.visit("2025-01-10", 60000.0, 10000.0);
    trial.photo(now, alikePieces(8, 0.8, ParticleType::brightMetal));
    trial.observe(now, FingerTest{Feel::felt});
    return reportFromBook(trial.book(), now, options());
}

} // namespace

TEST_CASE("page one shows the pieces that the verdict rests on, as many as its sentence counts") {
    TrialBook trial;
    const ReportModel model = withLargeMetal(trial);
    const ReportedPieces& shown = model.pieces;
    REQUIRE(shown.restedOn);
    CHECK(shown.count == 8);
    CHECK(shown.sentence.find("8 pieces of bright metal") != std::string::npos);
    CHECK(std::any_of(
        model.suggestion->all.begin(), model.suggestion->all.end(), [&](const Reason& reason) {
            return reason.supports && reason.sentence.find(shown.sentence) != std::string::npos;
        }));
    CHECK(shown.now.size() == 7); // one row holds no more
    CHECK(shown.counted.find("Of the " + piecesWords(model.samples.front().debris)) == 0);
    CHECK(shown.beforeDate == "2024-01-10");
    CHECK(shown.countBefore == 0);
    CHECK(shown.before.size() == 3); // smaller, of the same type
    for (const auto* list : {&shown.now, &shown.before})
        for (const ReportedPiece& piece : *list) {
            CHECK(piece.crop.size() == shown.now.front().crop.size());
            CHECK_FALSE(piece.crop.empty());
        }
    CHECK(shown.field.value() >= 1.35 * 1.6);
}

TEST_CASE("doubtful pieces and threads are never among those shown, nor among a photo's largest") {
    TrialBook trial;
    const std::int64_t visit = trial.visit("2025-01-10", 60000.0, 10000.0);
    std::vector<Particle> all = alikePieces(4, 0.2, ParticleType::lining);
    all.push_back(roundParticle(5, {60.0, 40.0}, 1.5, ParticleType::lining));
    all.back().debrisProbability = 0.5;
    all.push_back(roundParticle(6, {70.0, 40.0}, 2.0, ParticleType::fibre));
    all.push_back(roundParticle(7, {76.0, 50.0}, 2.2, ParticleType::fibre));
    all.back().debrisProbability = 0.5;
    trial.photo(visit, all);
    const ReportModel model = reportFromBook(trial.book(), visit, options());
    const ReportedSample& sample = model.samples.front();
    for (const auto* list : {&model.pieces.now, &sample.largest}) {
        REQUIRE(list->size() == 4);
        for (const ReportedPiece& piece : *list) {
            CHECK_FALSE(piece.particle.mayBeNone());
            CHECK(piece.particle.type == ParticleType::lining);
        }
    }
    REQUIRE(sample.threads.size() == 1);
    CHECK(sample.threads.front().particle.id == 6);
}

TEST_CASE(
    "where no reason rests on a photo, the largest pieces are shown and said to be no reason") {
    TrialBook trial;
    const std::int64_t visit = trial.visit("2025-01-10", 60000.0, 10000.0);
    trial.photo(visit, alikePieces(2, 0.1, ParticleType::brightMetal));
    const ReportedPieces shown = reportFromBook(trial.book(), visit, options()).pieces;
    CHECK(shown.now.size() == 2);
    if (!shown.restedOn)
        CHECK(shown.sentence.find("does not rest on them") != std::string::npos);
    CHECK(shown.beforeDate.empty());
    CHECK(shown.before.empty());
}

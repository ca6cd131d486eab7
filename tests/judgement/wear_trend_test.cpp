// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "judgement/wear_trend.h"
#include "scenario.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

VisitEvidence visitAt(std::int64_t id, double km, int pieces, double floor = 0.2) {
    VisitEvidence visit;
    visit.visitId = id;
    visit.odometer = Kilometres(km);
    visit.observations = {SinceClean{Typed<Kilometres>{Kilometres(20000), "20000 km"}}};
    DebrisSample sample;
    sample.place = Place::pad;
    sample.sampling = "washed";
    sample.finding.emplace();
    sample.finding->onWhiteCard = true;
    sample.finding->detectionLimit = Millimetres(floor);
    Particle p;
    p.maxFeret.value = Millimetres(0.4);
    sample.finding->particles.assign(static_cast<std::size_t>(pieces), p);
    visit.samples = {sample};
    return visit;
}

std::vector<ScoredVisit> scoresOf(const Evidence& evidence) {
    return comparableScores(
        evidence, Place::pad,
        loadWearScoreModel(std::filesystem::path(SWARFBOOK_SOURCE_DIR) / "models/wear-score.json"));
}

} // namespace

TEST_CASE("visits are scored from the largest of their size limits") {
    Evidence evidence;
    evidence.earlier = {visitAt(1, 60000, 5, 0.5)};
    evidence.now = visitAt(2, 80000, 20, 0.2);
    const auto scores = scoresOf(evidence);
    REQUIRE(scores.size() == 2);
    CHECK(scores[1].score.detectionLimit.value() == 0.5);
    CHECK(scores[1].score.value == 0.0); // its 0.4 mm pieces lie below the common size limit
}

TEST_CASE("a visit that was sampled differently or has no distance is left out") {
    Evidence evidence;
    evidence.earlier = {visitAt(1, 60000, 5), visitAt(2, 70000, 5)};
    evidence.earlier[0].samples[0].sampling = "half of it";
    evidence.earlier[1].observations.clear();
    evidence.now = visitAt(3, 80000, 20);
    const auto scores = scoresOf(evidence);
    REQUIRE(scores.size() == 1);
    CHECK(scores[0].visitId == 3);
}

TEST_CASE("four rising visits make points in the odometer's order") {
    Evidence evidence;
    evidence.earlier = {visitAt(1, 60000, 5), visitAt(2, 70000, 9), visitAt(3, 80000, 20)};
    evidence.now = visitAt(4, 90000, 40);
    const auto points = trendPoints(scoresOf(evidence));
    REQUIRE(points.size() == 4);
    CHECK(points[0].x == 60000);
    CHECK(trendOf(points).test.s == 6);
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "trend/visit_comparison.h"

#include <catch2/catch.hpp>

using namespace swarfbook;

namespace {

DebrisFinding pad(double floorMm, const std::vector<double>& sizesMm,
                  ParticleType type = ParticleType::brightMetal) {
    DebrisFinding finding;
    finding.onWhiteCard = true;
    finding.detectionLimit = Millimetres(floorMm);
    finding.measuredArea = SquareCentimetres(28);
    for (const double size : sizesMm) {
        Particle p;
        p.maxFeret.value = Millimetres(size);
        p.type = type;
        finding.particles.push_back(p);
    }
    return finding;
}

VisitSample sample(std::int64_t id, double km, std::vector<DebrisFinding> repeats) {
    VisitSample s;
    s.visitId = id;
    s.place = Place::pad;
    s.sampling = "wiped magnet, degreased";
    s.since = Kilometres(km);
    s.repeats = std::move(repeats);
    return s;
}

} // namespace

TEST_CASE("what only the sharper photo can show is not counted") {
    const VisitSample before = sample(1, 10000, {pad(0.2, {0.25, 0.3, 0.6})});
    const VisitSample after = sample(2, 10000, {pad(0.5, {0.6, 0.7})});
    const VisitComparison c = compareVisits(before, after);
    CHECK(c.detectionLimit.value() == Approx(0.5));
    CHECK(c.changes.front().before.count == 1);
    CHECK(c.changes.front().after.count == 2);
}

TEST_CASE("counts are divided by the distance since the last clean") {
    // 5 in 10,000 km against 15 in 10,000 km: the table value 3 = 1 / 0.333333, p = 0.0413895.
    const std::vector<double> five(5, 0.6), fifteen(15, 0.6);
    const VisitComparison c =
        compareVisits(sample(1, 10000, {pad(0.2, five)}), sample(2, 10000, {pad(0.2, fifteen)}));
    CHECK(*c.changes.front().comparison.ratio == Approx(3.0));
    CHECK(c.changes.front().comparison.pTwoSided == Approx(0.0413895).margin(1e-6));
    CHECK(c.changes.front().proven);
    const VisitComparison longer =
        compareVisits(sample(1, 10000, {pad(0.2, five)}), sample(2, 30000, {pad(0.2, fifteen)}));
    CHECK(*longer.changes.front().comparison.ratio == Approx(1.0));
    CHECK_FALSE(longer.changes.front().proven);
}

TEST_CASE("a change is called proven only where chance and interval agree") {
    // rateratio.test's example scaled: p = 0.033 but the interval holds 1.
    const VisitComparison c =
        compareVisits(sample(1, 16660, {pad(0.2, std::vector<double>(9, 0.6))}),
                      sample(2, 17877, {pad(0.2, std::vector<double>(2, 0.6))}));
    CHECK(c.changes.front().comparison.pTwoSided < 0.05);
    CHECK(c.changes.front().comparison.high > 1.0);
    CHECK_FALSE(c.changes.front().proven);
}

TEST_CASE("repeated photos of one sample are not added up") {
    const std::vector<double> four(4, 0.6), five(5, 0.6), six(6, 0.6);
    const VisitComparison c =
        compareVisits(sample(1, 10000, {pad(0.2, five)}),
                      sample(2, 10000, {pad(0.2, four), pad(0.2, six), pad(0.2, five)}));
    CHECK(c.changes.front().after.count == 5);
}

TEST_CASE("a step up in size class is told even when the counts agree") {
    const VisitComparison c = compareVisits(sample(1, 10000, {pad(0.2, {0.4, 0.4, 0.4})}),
                                            sample(2, 10000, {pad(0.2, {0.4, 0.4, 1.6})}));
    CHECK(c.stepUpInSize);
    CHECK_THAT(c.sentence, Catch::Contains("0.4 ± ") && Catch::Contains("then and is 1.6 ± "));
    CHECK(c.largestAfter->type == c.largestBefore->type);
    CHECK_THAT(c.sentence, Catch::Contains("may be chance"));
}

TEST_CASE("a long towel fibre is no step up in size") {
    DebrisFinding linted = pad(0.2, {0.4, 0.4});
    linted.particles.push_back(pad(0.2, {7.7}, ParticleType::fibre).particles.front());
    const VisitComparison c =
        compareVisits(sample(1, 10000, {pad(0.2, {0.4, 0.4})}), sample(2, 10000, {linted}));
    CHECK_FALSE(c.stepUpInSize);
    CHECK(c.largestAfter->longestSide.value.value() == Approx(0.4));
}

TEST_CASE("each type is compared by itself, all together first") {
    DebrisFinding mixed = pad(0.2, {0.4, 0.5}, ParticleType::lining);
    mixed.particles.push_back(pad(0.2, {0.8}, ParticleType::yellowMetal).particles.front());
    const VisitComparison c = compareVisits(
        sample(1, 10000, {pad(0.2, {0.4}, ParticleType::lining)}), sample(2, 10000, {mixed}));
    REQUIRE(c.changes.size() == 3);
    CHECK_FALSE(c.changes[0].type);
    CHECK(c.changes[1].type == ParticleType::yellowMetal);
    CHECK(c.changes[2].type == ParticleType::lining);
}

TEST_CASE("samples that are not alike are refused with the reason") {
    const VisitSample good = sample(1, 10000, {pad(0.2, {0.4})});
    VisitSample other = sample(2, 10000, {pad(0.2, {0.4})});
    SECTION("place") {
        other.place = Place::pan;
        CHECK_THROWS_WITH(compareVisits(good, other), Catch::Contains("same place"));
    }
    SECTION("sampling") {
        other.sampling = "half the magnet";
        CHECK_THROWS_WITH(compareVisits(good, other), Catch::Contains("half the magnet"));
    }
    SECTION("frame against pad") {
        other.repeats.front().onWhiteCard = false;
        CHECK_THROWS_AS(compareVisits(good, other), EvidenceRefused);
    }
    SECTION("distance unknown") {
        other.since.reset();
        CHECK_THROWS_WITH(compareVisits(good, other),
                          Catch::Contains("swarfbook observe --visit 2 since-clean"));
    }
}

TEST_CASE("pieces that touch a cut window's edge are left out, on the pad they count") {
    DebrisFinding finding = pad(0.2, {0.4, 0.5});
    finding.particles.front().atEdge = true;
    const VisitComparison onPad =
        compareVisits(sample(1, 10000, {finding}), sample(2, 10000, {finding}));
    CHECK(onPad.changes.front().after.count == 2);
    finding.onWhiteCard = false;
    const VisitComparison framed =
        compareVisits(sample(1, 10000, {finding}), sample(2, 10000, {finding}));
    CHECK(framed.changes.front().after.count == 1);
}

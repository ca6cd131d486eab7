// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/count.h"
#include "particles/planted_pieces.h"
#include "particles/repeats.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <stdexcept>

using namespace swarfbook;

namespace {

DebrisFinding padWith(const std::vector<double>& sizes, double floor) {
    DebrisFinding finding;
    finding.onWhiteCard = true;
    finding.detectionLimit = Millimetres(floor);
    finding.measuredArea = SquareCentimetres(28.0);
    for (const double size : sizes) {
        finding.particles.emplace_back();
        finding.particles.back().maxFeret.value = Millimetres(size);
        finding.particles.back().area.value = SquareMillimetres(size * size);
    }
    finding.counts =
        countByClass(finding.particles, {Millimetres(64), Millimetres(44)},
                     {true, finding.measuredArea, finding.detectionLimit, finding.detectionLimit});
    return finding;
}

} // namespace

TEST_CASE("repeats are averaged from their common size limit, never added up", "[repeats]") {
    const std::vector<DebrisFinding> repeats{padWith({0.12, 0.25, 0.5, 0.7}, 0.10),
                                             padWith({0.25, 0.5, 0.7}, 0.20),
                                             padWith({0.25, 0.27, 0.5, 0.7, 0.9}, 0.15)};
    const RepeatedFinding one = combineRepeats(repeats);
    CHECK(one.photos == 3);
    CHECK(one.detectionLimit.value() == 0.20);
    CHECK(one.count.mean == Approx((3 + 3 + 5) / 3.0)); // the piece of 0.12 is below the size limit
    CHECK(one.count.between == Approx(std::sqrt(4.0 / 3.0))); // of 3, 3 and 5: by hand
    REQUIRE(one.classes.size() == 3);
    CHECK(one.classes[0].sizeClass == "H"); // 200 to 400 um
    CHECK(one.classes[0].count.mean == Approx(4.0 / 3.0));
    CHECK(one.classes[2].count.mean == Approx(4.0 / 3.0)); // 600 to 1000 um: 1, 1 and 2
    CHECK(one.covered.mean > 0.0);
    CHECK(one.covered.between > 0.0);
}

// Source: exact Poisson limits of 10: 4.795389 and 18.390356 (Garwood); t(0.975; 1) = 12.7062.
TEST_CASE("the interval holds the sample's chance and the photos' scatter", "[repeats]") {
    const std::vector<double> ten(10, 0.5);
    const std::vector<DebrisFinding> alike{padWith(ten, 0.2), padWith(ten, 0.2)};
    const RepeatedFinding same = combineRepeats(alike);
    CHECK(same.count.between == 0.0);
    CHECK(same.count.low == Approx(4.795389).margin(1e-5));
    CHECK(same.count.high == Approx(18.390356).margin(1e-5));
    const std::vector<DebrisFinding> apart{padWith(std::vector<double>(9, 0.5), 0.2),
                                           padWith(std::vector<double>(11, 0.5), 0.2)};
    const RepeatedFinding wide = combineRepeats(apart);
    CHECK(wide.count.mean == Approx(10.0));
    // Scatter of the mean: 12.7062 * sqrt 2 / sqrt 2.
    CHECK(wide.count.high == Approx(10.0 + std::hypot(8.390356, 12.7062)).margin(1e-3));
    CHECK(wide.count.low == 0.0);
}

// Outside truth: samples drawn from a known Poisson rate, each photographed three times with a
// known chance to miss a piece. Added up, the counts would give an interval 1.7 times too narrow.
TEST_CASE("the interval holds the rate's truth in at least 94 of 100 samples", "[repeats]") {
    std::mt19937 random(11);
    std::poisson_distribution<int> sample(40.0 / 0.9);
    constexpr int trials = 600;
    int inside = 0;
    for (int i = 0; i < trials; ++i) {
        const int pieces = sample(random);
        std::binomial_distribution<int> seen(pieces, 0.9);
        std::vector<DebrisFinding> repeats;
        for (int k = 0; k < 3; ++k)
            repeats.push_back(
                padWith(std::vector<double>(static_cast<std::size_t>(seen(random)), 0.5), 0.2));
        const RepeatedFigure count = combineRepeats(repeats).count;
        inside += count.low <= 40.0 && count.high >= 40.0 ? 1 : 0;
    }
    CHECK(inside / double(trials) > 0.94);
}

TEST_CASE("one photo is a finding of its own, and different samples are not combined",
          "[repeats]") {
    const std::vector<DebrisFinding> single{padWith({0.5}, 0.2)};
    CHECK(combineRepeats(single).count.between == 0.0);
    std::vector<DebrisFinding> mixed{padWith({0.5}, 0.2), padWith({0.5}, 0.2)};
    mixed[1].onWhiteCard = false;
    CHECK_THROWS_AS(combineRepeats(mixed), std::logic_error);
    CHECK_THROWS_AS(combineRepeats({}), std::logic_error);
}

// Planted: 100 pieces, of which the second photo lacks every tenth and has none of its own.
TEST_CASE("repeats show how many pieces of one photo the next one shows too", "[repeats]") {
    DebrisFinding one = padWith({}, 0.2);
    one.particles = test::plantedPieces(100, 31);
    DebrisFinding next = one;
    std::erase_if(next.particles, [](const Particle& p) { return p.id % 10 == 0; });
    test::seeAgain(next.particles, 32);
    const RepeatedFinding same = combineRepeats(std::vector<DebrisFinding>{one, next});
    REQUIRE(same.foundAgain);
    CHECK(*same.foundAgain == Approx(180.0 / 190.0).margin(0.011)); // both ways; one may be wrong
    next.particles = test::plantedPieces(100, 33);
    CHECK_FALSE(combineRepeats(std::vector<DebrisFinding>{one, next}).foundAgain);
    CHECK_FALSE(combineRepeats(std::vector<DebrisFinding>{one}).foundAgain);
}

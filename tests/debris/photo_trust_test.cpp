// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/photo_trust.h"
#include "debris/shipped_models.h"

#include <catch2/catch.hpp>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

const PixelsPerMillimetre scale(30.0);

std::vector<Particle> pieces(int count, double mm, double probability) {
    Particle p;
    p.maxFeret = {Millimetres(mm), Millimetres(0.02)};
    p.debrisProbability = probability;
    return {static_cast<std::size_t>(count), p};
}

const SeeingConditions paper{Millimetres(0.1), 0.008, 0.03, 40};
const SeeingConditions felt{Millimetres(0.2), 0.08, 0.2, 40};

} // namespace

// By hand: 10 pieces of probability 0.8, each found with the model's chance c, are 8 pieces of
// debris among 8 / c; two more come from the prior.
TEST_CASE("Each piece counts by its probability and by how many of its size are missed",
          "[debris]") {
    const DetectionModel& detection = shippedModels().detection;
    const double chance = detection.chance(Millimetres(0.5), paper);
    const auto expected = expectedAgreement(pieces(10, 0.5, 0.8), detection, paper, scale);
    CHECK(expected.precision == Approx(10.0 / 12.3));
    CHECK(expected.recall == Approx(10.0 / (8.0 / chance + 2.5)));
    CHECK(expected.balance() == Approx(2.0 / (1.0 / expected.precision + 1.0 / expected.recall)));
}

TEST_CASE("Pieces under six pixels do not count for the photo's trust", "[debris]") {
    const DetectionModel& detection = shippedModels().detection;
    const auto large = expectedAgreement(pieces(10, 0.5, 0.8), detection, paper, scale);
    std::vector<Particle> both = pieces(10, 0.5, 0.8);
    const auto small = pieces(50, 0.19, 0.5);
    both.insert(both.end(), small.begin(), small.end());
    CHECK(expectedAgreement(both, detection, paper, scale).balance() == large.balance());
}

TEST_CASE("Sure pieces on paper are counted, doubtful ones on rough ground are shown", "[debris]") {
    const DetectionModel& detection = shippedModels().detection;
    const auto judged = [&](const std::vector<Particle>& all, const SeeingConditions& seen) {
        return shownOnly(expectedAgreement(all, detection, seen, scale), detection, false);
    };
    CHECK_FALSE(judged(pieces(40, 0.5, 0.97), paper));
    CHECK_FALSE(judged({}, paper)); // finding nothing is an answer too
    const auto rough = judged(pieces(40, 0.5, 0.55), felt);
    REQUIRE(rough);
    CHECK_THAT(rough->advice, Catch::Contains("white window"));
    CHECK_THAT(rough->why, Catch::Contains("of 100"));
}

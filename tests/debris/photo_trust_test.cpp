// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/photo_trust.h"
#include "debris/shipped_models.h"

#include <catch2/catch.hpp>

#include <cmath>

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

// Source: our own experiment, models/piece-trust.md: the surface's marks have quartiles of size up
// to 1.6 times and of light up to 1.21 times apart, debris more than 1.95 and 1.35.
TEST_CASE("Finds alike in size and tone are shown as the surface's marks", "[debris]") {
    // Evenly spread from 1 to `times` in logarithms: the quartiles are the root of `times` apart.
    const auto finds = [](int count, double sizeTimes, double lightTimes) {
        std::vector<SizeAndTone> all;
        for (int i = 0; i < count; ++i) {
            const double share = i / (count - 1.0);
            const double other = (i * 7 % count) / (count - 1.0);
            all.push_back(
                {Millimetres(0.3 * std::pow(sizeTimes, share)), 0.2 * std::pow(lightTimes, other)});
        }
        return all;
    };
    const auto marks = shownAsSurface(finds(40, 2.5, 1.4), false); // quartiles 1.58 and 1.18 apart
    REQUIRE(marks);
    CHECK_THAT(marks->why, Catch::Contains("40 finds are alike"));
    CHECK_THAT(marks->advice, Catch::Contains("white window"));
    CHECK_THAT(shownAsSurface(finds(40, 2.5, 1.4), true)->advice,
               Catch::Contains("plain white paper"));
    CHECK_FALSE(shownAsSurface(finds(40, 3.8, 1.4), false));  // 1.95: as various as debris
    CHECK_FALSE(shownAsSurface(finds(40, 2.5, 1.85), false)); // 1.36
    CHECK_FALSE(shownAsSurface(finds(19, 2.5, 1.4), false));  // few are alike by chance
    CHECK_FALSE(shownAsSurface({}, false));
}

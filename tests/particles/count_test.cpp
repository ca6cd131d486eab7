// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/poisson.h"
#include "particles/count.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

using namespace swarfbook;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using std::numbers::pi;

namespace {

/// An axis-parallel box of this size whose maximum Feret is given beside it.
Particle boxed(double maxFeret, double width, double height) {
    Particle p;
    p.maxFeret.value = Millimetres(maxFeret);
    p.outline = {{0, 0}, {width, 0}, {width, height}, {0, height}};
    return p;
}

const ClassCount& classOf(const std::vector<ClassCount>& counts, const std::string& letter) {
    const auto found = std::find_if(counts.begin(), counts.end(),
                                    [&](const ClassCount& c) { return c.sizeClass == letter; });
    REQUIRE(found != counts.end());
    return *found;
}

struct Frame {
    std::vector<Particle> inside;
    double trueCount = 0.0; ///< expected number of centres in the window
};

/// Rods of one length in any direction, thrown evenly over more than the 1000 x 800 window.
Frame thrownRods(double length, int thrown, unsigned seed) {
    std::mt19937 random(seed);
    const double margin = length;
    std::uniform_real_distribution<double> x(-margin, 1000 + margin), y(-margin, 800 + margin),
        angle(0, pi);
    Frame frame;
    frame.trueCount = thrown * 1000.0 * 800.0 / ((1000 + 2 * margin) * (800 + 2 * margin));
    for (int i = 0; i < thrown; ++i) {
        const double cx = x(random), cy = y(random), turn = angle(random);
        const double dx = 0.5 * length * std::cos(turn), dy = 0.5 * length * std::sin(turn);
        if (cx - std::abs(dx) <= 0 || cx + std::abs(dx) >= 1000 || cy - std::abs(dy) <= 0 ||
            cy + std::abs(dy) >= 800)
            continue;
        Particle rod;
        rod.maxFeret.value = Millimetres(length);
        rod.outline = {{cx - dx, cy - dy}, {cx + dx, cy + dy}};
        frame.inside.push_back(rod);
    }
    return frame;
}

} // namespace

// Source: the formula of Miles and Lantuejoul, worked by hand.
TEST_CASE("the edge weight agrees with Miles and Lantuejoul") {
    const WindowSize window{Millimetres(1000), Millimetres(800)};
    CHECK_THAT(edgeWeight(boxed(111.8, 100, 50), window), WithinAbs(1.185185, 1e-6));
    CHECK_THROWS_AS(edgeWeight(boxed(1001, 1000, 5), window), std::logic_error);
    CHECK_THROWS_AS(edgeWeight(Particle{}, window), std::logic_error);
}

// Source: ISO 13322-1's frame rule by simulation. The share left without weights is the closed form
// 1 - 2L/(pi Z1) - 2L/(pi Z2) + L^2/(pi Z1 Z2); a run with numpy gave 0.9698, 0.7263, 0.3892.
TEST_CASE("dropping pieces at the edge and weighting the rest returns the true number") {
    const WindowSize window{Millimetres(1000), Millimetres(800)};
    for (const double length : {20.0, 200.0, 500.0}) {
        const Frame frame = thrownRods(length, 400000, 0);
        const CountOptions options{false, SquareCentimetres(8000), Millimetres(3), Millimetres(3)};
        const auto counts = countByClass(frame.inside, window, options);
        REQUIRE(counts.size() == 1);
        const double share = 1 - 2 * length / (pi * 1000) - 2 * length / (pi * 800) +
                             length * length / (pi * 1000 * 800);
        CHECK_THAT(counts[0].count / frame.trueCount, WithinRel(share, 0.015));
        CHECK_THAT(counts[0].weighted / frame.trueCount, WithinRel(1.0, 0.015));
        CHECK_THAT(counts[0].per100Cm2, WithinRel(frame.trueCount / 80.0, 0.015));
    }
}

// Source: published laboratory report after ISO 16232: counts 14, 6 and 1 were reported as 124.94,
// 53.55 and 8.92 per 1000 cm2, which is an area of 112.05 cm2.
TEST_CASE("counts are brought to area as in a published report") {
    std::vector<Particle> particles;
    for (const auto& [size, pieces] : {std::pair(0.06, 14), std::pair(0.12, 6), std::pair(0.17, 1)})
        for (int i = 0; i < pieces; ++i)
            particles.push_back(boxed(size, 0.01, 0.01));
    const WindowSize wide{Millimetres(1e7), Millimetres(1e7)}; // so that no weight matters
    const auto counts = countByClass(
        particles, wide, {false, SquareCentimetres(112.05), Millimetres(0.05), Millimetres(0.05)});
    CHECK_THAT(10 * classOf(counts, "E").per100Cm2, WithinAbs(124.94, 0.005));
    CHECK_THAT(10 * classOf(counts, "F").per100Cm2, WithinAbs(53.55, 0.005));
    CHECK_THAT(10 * classOf(counts, "G").per100Cm2, WithinAbs(8.92, 0.005));
}

TEST_CASE("on a frame a piece at the edge is dropped, on a white card it counts") {
    const WindowSize window{Millimetres(64), Millimetres(44)};
    std::vector<Particle> particles{boxed(0.5, 0.4, 0.3), boxed(0.5, 0.4, 0.3)};
    particles[1].atEdge = true;
    particles[1].type = ParticleType::brightMetal;
    const auto frame = countByClass(
        particles, window, {false, SquareCentimetres(28.16), Millimetres(0.2), Millimetres(0.2)});
    CHECK(classOf(frame, "I").count == 1);
    CHECK(classOf(frame, "I").weighted > 1.0);
    CHECK(classOf(frame, "I").byType[static_cast<std::size_t>(ParticleType::brightMetal)] == 0);
    const auto pad = countByClass(
        particles, window, {true, SquareCentimetres(28.16), Millimetres(0.2), Millimetres(0.2)});
    CHECK(classOf(pad, "I").count == 2);
    CHECK(classOf(pad, "I").weighted == 2.0);
    CHECK(classOf(pad, "I").per100Cm2 == 2.0);
    CHECK(classOf(pad, "I").byType[static_cast<std::size_t>(ParticleType::brightMetal)] == 1);
}

// Source of the limits: exact Poisson (Garwood), published: 0 -> 0 to 3.688879.
TEST_CASE("intervals are those of the count, with the same scale") {
    const WindowSize window{Millimetres(64), Millimetres(44)};
    const std::vector<Particle> particles(4, boxed(0.7, 0.5, 0.5));
    const CountOptions options{false, SquareCentimetres(20), Millimetres(0.2), Millimetres(0.2)};
    const auto counts = countByClass(particles, window, options);
    const ClassCount& j = classOf(counts, "J");
    const auto [low, high] = poissonInterval95(4);
    CHECK_THAT(j.intervalLow / j.per100Cm2, WithinRel(low / 4, 1e-12));
    CHECK_THAT(j.intervalHigh / j.per100Cm2, WithinRel(high / 4, 1e-12));
    const ClassCount& none = classOf(counts, "N");
    CHECK(none.per100Cm2 == 0.0);
    CHECK(none.intervalLow == 0.0);
    CHECK_THAT(none.intervalHigh, WithinAbs(3.688879 * 100 / 20, 1e-5));
}

TEST_CASE("classes begin with that of the smallest size seen; a class reaching below the size "
          "limit is incomplete") {
    const WindowSize window{Millimetres(64), Millimetres(44)};
    const std::vector<Particle> particles{boxed(0.21, 0.1, 0.1), boxed(0.24, 0.1, 0.1),
                                          boxed(0.5, 0.1, 0.1)};
    const CountOptions options{true, SquareCentimetres(28), Millimetres(0.45), Millimetres(0.23)};
    const auto counts = countByClass(particles, window, options);
    REQUIRE(counts.size() == 7);
    CHECK(counts.front().sizeClass == "H");
    CHECK_FALSE(counts.front().complete);
    CHECK(counts.front().count == 1); // 0.21 mm is below the size limit
    CHECK_FALSE(counts[1].complete);  // 400 to 600 um: begins below the size limit
    CHECK(counts[1].count == 1);
    CHECK(counts[2].complete);
    CHECK(counts.back().sizeClass == "N");
    CHECK(std::isinf(counts.back().to.value()));
    CHECK(cleanlinessCode(counts, options) == "N(J0/K0/L0/M0/N0)");
    const auto onLimit = countByClass(
        particles, window, {true, SquareCentimetres(28), Millimetres(0.2), Millimetres(0.2)});
    CHECK(onLimit.front().sizeClass == "H");
    CHECK(onLimit.front().complete);
}

TEST_CASE("a frame's code has levels per area, and no area is refused") {
    const WindowSize window{Millimetres(1e6), Millimetres(1e6)};
    const std::vector<Particle> particles(3, boxed(0.5, 0.1, 0.1));
    const CountOptions options{false, SquareCentimetres(28), Millimetres(0.4), Millimetres(0.4)};
    // 3 / 28 cm2 = 107 per 1000 cm2: level 7 (64 to 130) of the published table.
    CHECK(cleanlinessCode(countByClass(particles, window, options), options) ==
          "A(I7/J00/K00/L00/M00/N00)");
    CHECK_THROWS_AS(countByClass(particles, window,
                                 {false, SquareCentimetres(0), Millimetres(1), Millimetres(1)}),
                    std::logic_error);
}

TEST_CASE("pieces from the size limit up and smaller ones are counted apart") {
    DebrisFinding finding;
    finding.detectionLimit = Millimetres(0.3);
    finding.particles = {boxed(0.5, 0.1, 0.1), boxed(0.3, 0.1, 0.1), boxed(0.29, 0.1, 0.1)};
    CHECK(piecesFound(finding).fromFloor == 2);
    CHECK(piecesFound(finding).smaller == 1);
}

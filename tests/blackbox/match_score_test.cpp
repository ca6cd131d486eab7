// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "blackbox/match_score.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

const std::filesystem::path truthFile =
    std::filesystem::path(SWARFBOOK_SOURCE_DIR) / "demo-images/truth/history-1.json";

Particle particleAt(PointOnCard at, double maxFeret) {
    Particle p;
    p.centre = at;
    p.maxFeret = {Millimetres(maxFeret), Millimetres(0.01)};
    return p;
}

DebrisFinding truthItself(const Truth& truth) {
    DebrisFinding finding;
    for (const TruePiece& piece : truth.pieces)
        finding.particles.push_back(particleAt(piece.at, piece.maxFeret));
    return finding;
}

} // namespace

// The score itself is tested first: a flattering match would make the whole folder worthless.
TEST_CASE("The truth compared with itself agrees completely", "[blackbox]") {
    const Truth truth = readTruth(truthFile);
    const MatchScore a = matchScoreOf(truth, truthItself(truth));
    CHECK(a.asked > 10);
    CHECK(a.found == a.asked);
    CHECK(a.falseOnes == 0);
    CHECK(a.inside == a.sized);
}

TEST_CASE("Missed, false and wrongly sized pieces are each noticed", "[blackbox]") {
    const Truth truth = readTruth(truthFile);
    const int asked = matchScoreOf(truth, truthItself(truth)).asked;
    CHECK(matchScoreOf(truth, DebrisFinding{}).found == 0);
    CHECK(matchScoreOf(truth, DebrisFinding{}).asked == asked);

    DebrisFinding invented = truthItself(truth);
    invented.particles.push_back(particleAt({46.0, 29.0}, 0.31)); // where nothing lies
    bool free = true;
    for (const TruePiece& p : truth.pieces)
        free = free && std::hypot(p.at.x - 46.0, p.at.y - 29.0) > 1.0 + p.maxFeret;
    REQUIRE(free);
    CHECK(matchScoreOf(truth, invented).falseOnes == 1);

    DebrisFinding doubled = truthItself(truth);
    for (Particle& p : doubled.particles)
        p.maxFeret.value = p.maxFeret.value * 1.5;
    CHECK(matchScoreOf(truth, doubled).inside == 0);
}

TEST_CASE(
    "The true camera's grid has no scale error, a stretched grid has the error of its stretch",
    "[blackbox]") {
    const Truth truth = readTruth(truthFile);
    std::vector<GridPoint> grid;
    std::vector<GridPoint> stretched;
    for (int j = 0; j < 5; ++j)
        for (int i = 0; i < 5; ++i) {
            const PointOnCard p{truth.windowX + truth.windowWidth * i / 4.0,
                                truth.windowY + truth.windowHeight * j / 4.0};
            const PointInPhoto at = truth.photoFromCard(p);
            grid.push_back({p, at});
            stretched.push_back({p, {at.u * 1.002, at.v * 1.002}});
        }
    CHECK(scaleErrorPercent(truth, grid) == Approx(0.0).margin(1e-9));
    CHECK(scaleErrorPercent(truth, stretched) == Approx(0.2).epsilon(1e-6));
}

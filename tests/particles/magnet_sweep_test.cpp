// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/magnet_sweep.h"
#include "particles/planted_pieces.h"

#include <catch2/catch.hpp>

#include <set>

using namespace swarfbook;
using namespace swarfbook::test;

// The truth of all cases here is planted: the pieces that go with the magnet are chosen by id.
namespace {

const CardWindow window{{30.0, 25.0}, {160.0, 115.0}};

DebrisFinding photoOf(std::vector<Particle> pieces, double sizeLimit = 0.6) {
    DebrisFinding debris;
    debris.detectionLimit = Millimetres(sizeLimit);
    debris.resolutionLimit = Millimetres(0.2);
    debris.particles = std::move(pieces);
    return debris;
}

/// Every third piece goes; the others are seen again.
std::vector<Particle> everyThirdGone(const std::vector<Particle>& before) {
    std::vector<Particle> after;
    for (const Particle& p : before)
        if (p.id % 3 != 0)
            after.push_back(p);
    seeAgain(after, 77);
    return after;
}

int wrongOnes(const DebrisFinding& before) {
    int wrong = 0;
    for (const Particle& p : before.particles)
        wrong += p.ferrous != Ferrous::notKnown && (p.ferrous == Ferrous::yes) != (p.id % 3 == 0);
    return wrong;
}

Particle& pieceNamed(DebrisFinding& debris, int id) {
    return *std::find_if(debris.particles.begin(), debris.particles.end(),
                         [&](const Particle& p) { return p.id == id; });
}

} // namespace

TEST_CASE("pieces that are gone are magnetic, pieces that are left are not", "[sweep]") {
    DebrisFinding before = photoOf(plantedPieces(150, 21));
    DebrisFinding after = photoOf(everyThirdGone(before.particles));
    const auto sweep = sweepPieces({before, window}, {after, window});
    REQUIRE(sweep);
    CHECK(sweep->placeByPieces);
    CHECK(sweep->limitByPair);
    CHECK(wrongOnes(before) <= 2);
    CHECK(sweep->pieces.before() + sweep->smaller == 150);
    REQUIRE(sweep->pieces.byCount);
    CHECK(sweep->pieces.byCount->share == Approx(1.0 / 3.0).margin(0.05));
    CHECK(sweep->pieces.byCount->low < 1.0 / 3.0);
    CHECK(sweep->pieces.byCount->high > 1.0 / 3.0);
    int ofClasses = 0;
    for (const SweepClass& c : sweep->classes)
        ofClasses += c.pieces.before();
    CHECK(ofClasses == sweep->pieces.before());
    for (const Particle& p : after.particles)
        CHECK(p.ferrous != Ferrous::yes);
}

TEST_CASE("the share by area follows the areas", "[sweep]") {
    DebrisFinding before = photoOf(plantedPieces(150, 22));
    DebrisFinding after = photoOf(everyThirdGone(before.particles));
    const auto sweep = sweepPieces({before, window}, {after, window});
    REQUIRE(sweep);
    double gone = 0.0, all = 0.0;
    for (const Particle& p : before.particles)
        if (p.ferrous != Ferrous::notKnown) {
            all += p.area.value.value();
            gone += p.ferrous == Ferrous::yes ? p.area.value.value() : 0.0;
        }
    REQUIRE(sweep->pieces.byArea);
    CHECK(sweep->pieces.byArea->share == Approx(gone / all));
    CHECK(sweep->pieces.byArea->low < gone / all);
    CHECK(sweep->pieces.byArea->high > gone / all);
}

// A poorer second photo must not turn pieces that it cannot show into magnetic metal.
TEST_CASE("a piece that the second photo cannot show is not judged", "[sweep]") {
    DebrisFinding before = photoOf(plantedPieces(150, 23));
    auto left = everyThirdGone(before.particles);
    std::erase_if(left, [](const Particle& p) { return p.maxFeret.value < Millimetres(1.2); });
    DebrisFinding after = photoOf(left, 1.2);
    const auto sweep = sweepPieces({before, window}, {after, window});
    REQUIRE(sweep);
    CHECK(sweep->judgedFrom >= Millimetres(1.2));
    CHECK(wrongOnes(before) <= 2);
    for (const Particle& p : before.particles)
        if (p.maxFeret.value < Millimetres(1.2))
            CHECK(p.ferrous == Ferrous::notKnown);
}

TEST_CASE("few pieces are judged from the greater of both photos' size limits", "[sweep]") {
    DebrisFinding before = photoOf(plantedPieces(30, 24), 0.9);
    DebrisFinding after = photoOf(everyThirdGone(before.particles), 0.7);
    after.particles.resize(15);
    const auto sweep = sweepPieces({before, window}, {after, window});
    REQUIRE(sweep);
    CHECK_FALSE(sweep->limitByPair);
    CHECK(sweep->judgedFrom == Millimetres(0.9));
}

TEST_CASE("pieces that may be hidden, are doubtful or cut by the edge are not known", "[sweep]") {
    DebrisFinding before = photoOf(plantedPieces(120, 25));
    std::vector<int> large; // pieces that go with the magnet
    for (const Particle& p : before.particles)
        if (p.id % 3 == 0 && p.maxFeret.value > Millimetres(1.0))
            large.push_back(p.id);
    REQUIRE(large.size() >= 4);
    DebrisFinding after = photoOf(everyThirdGone(before.particles));
    pieceNamed(before, large[0]).debrisProbability = 0.5;
    pieceNamed(before, large[1]).atEdge = true;
    pieceNamed(before, large[2]).type = ParticleType::fibre;
    const PointOnCard glare = pieceNamed(before, large[3]).centre;
    after.leftOut.push_back({"glare",
                             {{glare.x - 2.0, glare.y - 2.0},
                              {glare.x + 2.0, glare.y - 2.0},
                              {glare.x + 2.0, glare.y + 2.0},
                              {glare.x - 2.0, glare.y + 2.0}}});
    const auto sweep = sweepPieces({before, window}, {after, window});
    REQUIRE(sweep);
    for (int i = 0; i < 4; ++i) {
        INFO(i);
        CHECK(pieceNamed(before, large[static_cast<std::size_t>(i)]).ferrous == Ferrous::notKnown);
    }
    CHECK(sweep->pieces.notKnown >= 4);
    // A piece that is not known may be either.
    CHECK(sweep->pieces.byCount->high >
          double(sweep->pieces.gone + sweep->pieces.notKnown) / sweep->pieces.before());
    CHECK(sweep->pieces.byCount->low < double(sweep->pieces.gone) / sweep->pieces.before());
}

TEST_CASE("a piece pushed aside by the magnet is left, or not known if others look like it",
          "[sweep]") {
    DebrisFinding before = photoOf(plantedPieces(120, 26));
    auto seen = everyThirdGone(before.particles);
    std::set<int> pushed;
    for (Particle& p : seen)
        if (pushed.size() < 8) {
            p = laidElsewhere(p, {p.centre.x + 2.5, p.centre.y + 2.0}, 0.7, false);
            pushed.insert(p.id);
        }
    DebrisFinding after = photoOf(seen);
    const auto sweep = sweepPieces({before, window}, {after, window});
    REQUIRE(sweep);
    for (const int id : pushed)
        CHECK(pieceNamed(before, id).ferrous != Ferrous::yes);
    CHECK(sweep->moved >= 1);
    CHECK(wrongOnes(before) <= 2);
}

TEST_CASE("a clump with half of it gone is not known", "[sweep]") {
    DebrisFinding before = photoOf(plantedPieces(80, 27));
    auto seen = before.particles;
    auto& clump = *std::find_if(seen.begin(), seen.end(), [](const Particle& p) {
        return p.maxFeret.value > Millimetres(2.0);
    });
    for (PointOnCard& corner : clump.outline) // 0.62 of its length, 0.38 of its area
        corner = {clump.centre.x + 0.62 * (corner.x - clump.centre.x),
                  clump.centre.y + 0.62 * (corner.y - clump.centre.y)};
    setSizes(clump);
    DebrisFinding after = photoOf(seen);
    REQUIRE(sweepPieces({before, window}, {after, window}));
    CHECK(pieceNamed(before, clump.id).ferrous == Ferrous::notKnown);
}

TEST_CASE("another place is not accepted after a magnet, an empty one may be", "[sweep]") {
    DebrisFinding before = photoOf(plantedPieces(100, 28));
    DebrisFinding other = photoOf(plantedPieces(100, 29));
    CHECK_FALSE(sweepPieces({before, window}, {other, window}));
    for (const Particle& p : before.particles)
        CHECK(p.ferrous == Ferrous::notKnown);
    DebrisFinding nothing = photoOf({});
    const auto sweep = sweepPieces({before, window}, {nothing, window});
    REQUIRE(sweep);
    CHECK_FALSE(sweep->placeByPieces);
    CHECK(sweep->pieces.left == 0);
    CHECK(sweep->pieces.gone > 50);
}

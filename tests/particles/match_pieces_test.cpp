// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/match_pieces.h"
#include "particles/planted_pieces.h"

#include <catch2/catch.hpp>

#include <map>
#include <set>

using namespace swarfbook;
using namespace swarfbook::test;

// The truth of all cases here is planted: the pieces are made, and every piece keeps its id.
namespace {

/// id in `a` -> id in `b`.
std::map<int, int> idPairs(const std::vector<Particle>& a, const std::vector<Particle>& b) {
    std::map<int, int> out;
    for (const PiecePair& pair : matchPieces(a, b).pairs)
        out[a[pair.a].id] = b[pair.b].id;
    return out;
}

std::vector<Particle> allSeenAfter(const std::vector<Particle>& pieces, const CardMotion& motion) {
    std::vector<Particle> out;
    for (const Particle& p : pieces)
        out.push_back(seenAfter(p, motion));
    return out;
}

/// A matched piece may be a wrong one where two of a size lie within half a millimetre.
void checkAllFound(const std::vector<Particle>& a, const std::vector<Particle>& b,
                   std::size_t inBoth) {
    std::size_t right = 0, wrong = 0;
    for (const auto& [one, other] : idPairs(a, b))
        (one == other ? right : wrong) += 1;
    CHECK(right >= inBoth * 98 / 100);
    CHECK(wrong <= inBoth / 50);
}

} // namespace

TEST_CASE("pieces that lie still are found again from anywhere", "[match]") {
    const auto before = plantedPieces(150, 1);
    auto after = before;
    seeAgain(after, 2);
    CHECK(matchPieces(before, after).placeByPieces);
    checkAllFound(before, after, 150);
}

TEST_CASE("lost and gained pieces stay without a partner", "[match]") {
    const auto before = plantedPieces(160, 3);
    std::vector<Particle> after(before.begin() + 80, before.end());
    seeAgain(after, 4);
    auto gained = plantedPieces(12, 5);
    for (Particle& p : gained)
        p.id += 1000;
    after.insert(after.end(), gained.begin(), gained.end());
    const PieceMatches matches = matchPieces(before, after);
    checkAllFound(before, after, 80);
    CHECK(matches.onlyA.size() >= 78);
    CHECK(matches.onlyA.size() <= 82);
    CHECK(matches.onlyB.size() >= 10);
    for (const PiecePair& pair : matches.pairs)
        CHECK(before[pair.a].id == after[pair.b].id);
}

TEST_CASE("pieces are found although the card was laid down again, shifted or turned", "[match]") {
    const auto before = plantedPieces(120, 6);
    const CardMotion motion = GENERATE(
        CardMotion{Degrees(0.0), {1.4, -0.9}}, CardMotion{Degrees(6.0), {12.0, -9.0}},
        CardMotion{Degrees(90.0), {165.0, -25.0}}, CardMotion{Degrees(180.0), {190.0, 140.0}});
    auto after = allSeenAfter(before, motion);
    after.erase(after.begin(), after.begin() + 50);
    seeAgain(after, 7);
    const PieceMatches matches = matchPieces(before, after);
    CHECK(matches.placeByPieces);
    checkAllFound(before, after, 70);
    // A place in the middle of the window is where the motion brings it.
    const PointOnCard at = matches.motion.onSecond({95.0, 70.0}),
                      want = motion.onSecond({95.0, 70.0});
    CHECK(std::hypot(at.x - want.x, at.y - want.y) < 0.05);
    const PointOnCard back = matches.motion.inverse().onSecond(at);
    CHECK(back.x == Approx(95.0));
    CHECK(back.y == Approx(70.0));
}

TEST_CASE("a mirrored arrangement and other debris are not the same place", "[match]") {
    const auto before = plantedPieces(120, 8);
    std::vector<Particle> mirrored;
    for (Particle p : before) {
        p.centre.x = 190.0 - p.centre.x;
        for (PointOnCard& corner : p.outline)
            corner.x = 190.0 - corner.x;
        mirrored.push_back(p);
    }
    CHECK_FALSE(matchPieces(before, mirrored).placeByPieces);
    CHECK_FALSE(matchPieces(before, plantedPieces(120, 9)).placeByPieces);
}

TEST_CASE("a piece that was moved is recognised by its outline, turned or turned over", "[match]") {
    const auto before = plantedPieces(100, 10);
    auto after = before;
    seeAgain(after, 11);
    const bool over = GENERATE(false, true);
    std::set<int> moved;
    for (std::size_t i = 0; i < after.size() && moved.size() < 8; ++i)
        if (after[i].maxFeret.value > Millimetres(1.5)) {
            after[i] = laidElsewhere(after[i], {after[i].centre.x + 6.0, after[i].centre.y - 4.0},
                                     1.1, over);
            moved.insert(after[i].id);
        }
    REQUIRE(moved.size() == 8);
    int found = 0;
    for (const PiecePair& pair : matchPieces(before, after).pairs) {
        CHECK(before[pair.a].id == after[pair.b].id);
        if (pair.moved) {
            CHECK(moved.count(before[pair.a].id) == 1);
            ++found;
        }
    }
    CHECK(found >= 6);
}

TEST_CASE("a round piece is never said to have moved, as others look like it", "[match]") {
    auto before = plantedPieces(60, 12);
    for (int i = 0; i < 3; ++i) { // three discs of one size
        Particle disc = before.front();
        disc.id = 500 + i;
        disc.centre = {40.0 + 30.0 * i, 34.0};
        disc.outline.clear();
        for (int k = 0; k < 24; ++k) {
            const double angle = 2.0 * std::numbers::pi * k / 24;
            disc.outline.push_back(
                {disc.centre.x + 0.5 * std::cos(angle), disc.centre.y + 0.5 * std::sin(angle)});
        }
        setSizes(disc);
        before.push_back(disc);
    }
    auto after = before;
    after[61] = laidElsewhere(after[61], {80.0, 100.0}, 0.0, false);
    for (const PiecePair& pair : matchPieces(before, after).pairs)
        CHECK_FALSE(pair.moved);
}

TEST_CASE("the order of pieces and of photos does not matter", "[match]") {
    const auto before = plantedPieces(150, 13);
    std::vector<Particle> after(before.begin() + 40, before.end());
    seeAgain(after, 14);
    const auto pairs = idPairs(before, after);
    auto shuffled = before, shuffledAfter = after;
    std::shuffle(shuffled.begin(), shuffled.end(), std::mt19937(15));
    std::shuffle(shuffledAfter.begin(), shuffledAfter.end(), std::mt19937(16));
    CHECK(idPairs(shuffled, shuffledAfter) == pairs);
    std::map<int, int> back;
    for (const auto& [b, a] : idPairs(after, before))
        back[a] = b;
    CHECK(back == pairs);
}

TEST_CASE("photos without pieces give no pairs", "[match]") {
    const auto some = plantedPieces(5, 17);
    CHECK(matchPieces({}, {}).pairs.empty());
    CHECK(matchPieces(some, {}).onlyA.size() == 5);
    CHECK(matchPieces({}, some).onlyB.size() == 5);
    CHECK_FALSE(matchPieces(some, {}).placeByPieces);
}

TEST_CASE("outlines differ as their shapes do", "[match]") {
    const auto pieces = plantedPieces(2, 18);
    const Particle turned =
        laidElsewhere(pieces[0], {10.0, 10.0}, 2.0 * std::numbers::pi / 3, false);
    CHECK(outlineDifference(pieces[0], pieces[0]) == 0.0);
    CHECK(outlineDifference(pieces[0], turned) < 0.05); // 48 directions
    CHECK(outlineDifference(pieces[0], pieces[1]) > 0.2);
    CHECK(std::isinf(outlineDifference(pieces[0], Particle())));
}

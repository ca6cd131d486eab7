// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/regroup_pieces.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <stdexcept>

using namespace swarfbook;

namespace {

constexpr double halfTurn = std::numbers::pi; // radians

Particle pieceOf(int id, std::vector<PointOnCard> outline, double longest, double area) {
    Particle piece;
    piece.id = id;
    piece.outline = std::move(outline);
    piece.maxFeret = {Millimetres(longest), Millimetres(0.02 * longest)};
    piece.area = {SquareMillimetres(area), SquareMillimetres(0.04 * area)};
    piece.type = ParticleType::brightMetal;
    piece.mayBeSeveral = true;
    return piece;
}

Particle block(int id, double left, double width, double height) {
    return pieceOf(id, {{left, 0.0}, {left + width, 0.0}, {left + width, height}, {left, height}},
                   std::hypot(width, height), width * height);
}

/// Two discs that overlap: the outline round both.
Particle twoDiscs(double left, double right, double between) {
    // where two circles cross (Euclid; any table of plane geometry)
    const double at = (between * between + left * left - right * right) / (2.0 * between);
    const double half = std::sqrt(left * left - at * at);
    const double open = std::atan2(half, at), openRight = std::atan2(half, between - at);
    std::vector<PointOnCard> outline;
    for (int i = 0; i <= 200; ++i) {
        const double angle = open + (2.0 * halfTurn - 2.0 * open) * i / 200.0;
        outline.push_back({left * std::cos(angle), left * std::sin(angle)});
    }
    for (int i = 1; i < 200; ++i) {
        const double angle = -(halfTurn - openRight) + 2.0 * (halfTurn - openRight) * i / 200.0;
        outline.push_back({between + right * std::cos(angle), right * std::sin(angle)});
    }
    return pieceOf(1, outline, left + between + right, 0.0);
}

} // namespace

// Two rectangles 1 mm high, 2 mm and 1 mm wide, 0.5 mm apart in one line: the hull is a rectangle
// of 3.5 mm x 1 mm, its diagonal sqrt(13.25) mm, its area of metal 3 mm2 (plane geometry).
TEST_CASE("pieces that are one are as long as all of them together, with their area") {
    Particle wide = block(5, 0.0, 2.0, 1.0), narrow = block(3, 2.5, 1.0, 1.0);
    narrow.type = ParticleType::lining;
    narrow.glint = 2.0;
    narrow.atEdge = true;
    narrow.ferrous = Ferrous::yes;
    for (const bool turned : {false, true}) { // outlines may turn either way
        if (turned)
            std::reverse(narrow.outline.begin(), narrow.outline.end());
        const Particle one = joinedPieces({narrow, wide});
        CHECK(one.id == 3);
        CHECK(one.maxFeret.value.value() == Approx(std::sqrt(13.25)));
        CHECK(one.maxFeret.standardUncertainty.value() == Approx(0.02 * std::sqrt(13.25)));
        CHECK(one.minFeret.value.value() == Approx(1.0));
        CHECK(one.area.value.value() == Approx(3.0));
        CHECK(one.centre.x == Approx((2.0 * 1.0 + 1.0 * 3.0) / 3.0)); // of both areas
        CHECK(one.centre.y == Approx(0.5));
        CHECK(one.sizeClass == "N");                  // over 3000 um in ISO 16232's table
        CHECK(one.type == ParticleType::brightMetal); // of the larger part
        CHECK(one.glint == 2.0);
        CHECK(one.atEdge);
        CHECK(one.ferrous == Ferrous::yes); // a piece is of one material
        CHECK_FALSE(one.mayBeSeveral);
    }
    wide.ferrous = Ferrous::no;
    CHECK(joinedPieces({narrow, wide}).ferrous == Ferrous::notKnown);
    CHECK(gapBetween(wide, narrow).value() == Approx(0.5));
    CHECK(joinedPieces({wide, narrow, block(9, 4.0, 1.0, 1.0)}).maxFeret.value.value() ==
          Approx(std::hypot(5.0, 1.0)));
    CHECK_THROWS_AS(joinedPieces({wide}), std::logic_error);
}

// Each disc is as long as its diameter, whatever it touches; the cut is the chord between the
// points where the circles cross.
TEST_CASE("two discs that touch are cut where they touch, and each keeps its diameter") {
    struct Pair {
        double left, right, between;
    };
    for (const Pair& pair : {Pair{0.5, 0.5, 0.9}, Pair{1.0, 0.3, 1.25}, Pair{0.4, 0.8, 1.1}}) {
        INFO(pair.left << " " << pair.right);
        const auto two = dividedPiece(twoDiscs(pair.left, pair.right, pair.between), 12);
        REQUIRE(two);
        CHECK(two->larger.id == 1);
        CHECK(two->smaller.id == 12);
        const double large = std::max(pair.left, pair.right);
        const double small = std::min(pair.left, pair.right);
        CHECK(two->larger.maxFeret.value.value() == Approx(2.0 * large).epsilon(0.01));
        CHECK(two->smaller.maxFeret.value.value() == Approx(2.0 * small).epsilon(0.02));
        const double at =
            (pair.between * pair.between + pair.left * pair.left - pair.right * pair.right) /
            (2.0 * pair.between);
        const double chord = 2.0 * std::sqrt(pair.left * pair.left - at * at);
        // GUM 4.3.7: a rectangle of half width a has the standard uncertainty a / sqrt(3)
        CHECK(two->smaller.maxFeret.standardUncertainty.value() >=
              Approx(chord / std::sqrt(3.0)).epsilon(0.02));
        // the left disc is the one that lies round the origin
        CHECK(std::min(std::abs(two->larger.centre.x), std::abs(two->smaller.centre.x)) <
              0.1 * pair.left);
        CHECK_FALSE(two->larger.mayBeSeveral);
    }
}

TEST_CASE("a whisker is not cut off as if it were a piece, and a line cannot be divided") {
    Particle whiskered = block(1, 0.0, 2.0, 1.0);
    whiskered.outline = {{0.0, 0.0}, {1.0, 0.0},  {2.0, 0.0}, {2.0, 0.48}, {2.6, 0.49},
                         {2.6, 0.5}, {2.0, 0.52}, {2.0, 1.0}, {1.0, 1.0},  {0.0, 1.0}};
    const auto two = dividedPiece(whiskered, 2);
    REQUIRE(two);
    CHECK(two->smaller.area.value.value() == Approx(1.0).epsilon(0.05)); // half the block
    Particle line;
    line.outline = {{0.0, 0.0}, {1.0, 0.0}, {2.0, 0.0}, {1.0, 0.0}};
    CHECK_FALSE(dividedPiece(line, 2));
    CHECK_FALSE(dividedPiece(Particle(), 2));
}

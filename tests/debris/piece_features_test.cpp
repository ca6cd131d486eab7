// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/drawn_maps.h"
#include "debris/piece_features.h"
#include "debris/shared_elongation.h"
#include "photo/linear_light.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <set>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

constexpr double edgeWidth = 3.0; // px, of flatPhoto

struct Seen {
    std::vector<Features> features;
    [[nodiscard]] double of(std::size_t piece, Feature which) const {
        return double(features.at(piece)[static_cast<std::size_t>(which)]);
    }
};

constexpr double someNoise = 0.009;

Seen type(const DrawnMaps& drawn) {
    const PieceMaps maps = drawn.maps();
    return {featuresOf({drawn.photo, drawn.crop, maps, someNoise},
                       findPieces(maps, drawn.crop, shippedModels().contacts))};
}

double linear(double code) {
    return double(linearFromSrgb()[static_cast<std::size_t>(code)]);
}

} // namespace

TEST_CASE("Every feature has one name of its own", "[debris]") {
    const auto& names = featureNames();
    CHECK(std::set<std::string_view>(names.begin(), names.end()).size() == names.size());
    CHECK(std::none_of(names.begin(), names.end(), [](auto name) { return name.empty(); }));
}

// Closed forms of a disc: all Ferets 2 r.
TEST_CASE("A disc is described by its size in pixels and in edge widths", "[debris]") {
    DrawnMaps drawn;
    drawn.disc({300, 200}, 20);
    const Seen seen = type(drawn);
    REQUIRE(seen.features.size() == 1);
    CHECK(seen.of(0, Feature::logPixels) == Approx(std::log(41.0)).margin(0.03));
    CHECK(seen.of(0, Feature::logMaxFeret) == Approx(std::log(41.0 / edgeWidth)).margin(0.03));
    CHECK(seen.of(0, Feature::aspect) == Approx(1.0).margin(0.03));
    CHECK(seen.of(0, Feature::solidity) == Approx(1.0).margin(0.03));
    CHECK(seen.of(0, Feature::straightness) == Approx(1.0).margin(0.03));
    CHECK(seen.of(0, Feature::growth) == Approx(0.0).margin(0.05));
    CHECK(seen.of(0, Feature::shrink) == Approx(0.0).margin(0.05));
}

// By hand: p (1 - p) of the answers drawn.
TEST_CASE("The network's sureness of a piece is read from its own answers", "[debris]") {
    DrawnMaps drawn;
    drawn.disc({200, 200}, 20, 255);
    drawn.disc({400, 200}, 20, 153); // 0.6
    const Seen seen = type(drawn);
    REQUIRE(seen.features.size() == 2);
    CHECK(seen.of(0, Feature::greatestAnswer) == Approx(1.0));
    CHECK(seen.of(0, Feature::meanAnswer) == Approx(1.0).margin(0.03)); // its rim is in it
    CHECK(seen.of(1, Feature::greatestAnswer) == Approx(0.6));
    CHECK(seen.of(1, Feature::meanAnswer) == Approx(0.6).margin(0.01));
    CHECK(seen.of(0, Feature::unsureWithin) < 0.02);
    CHECK(seen.of(1, Feature::unsureWithin) == Approx(0.24).margin(0.01));
}

TEST_CASE("Suspected pixels around a piece count as unsure there", "[debris]") {
    DrawnMaps alone, amid;
    alone.disc({300, 200}, 15);
    amid.disc({300, 200}, 15);
    cv::circle(amid.piece, {300, 200}, 21, cv::Scalar(51), 8); // 0.2
    const double before = type(alone).of(0, Feature::unsureAround);
    const double after = type(amid).of(0, Feature::unsureAround);
    CHECK(before < 0.03);
    CHECK(after == Approx(0.16).margin(0.04));
}

// By hand: logarithm of (undecided pixels + 100) / (sure ones + 100).
TEST_CASE("The undecided share of a photo's map is a feature of every piece in it", "[debris]") {
    DrawnMaps drawn;
    drawn.piece(cv::Rect(100, 100, 30, 30)).setTo(255);
    drawn.piece(cv::Rect(400, 200, 40, 50)).setTo(255);
    drawn.piece(cv::Rect(200, 300, 200, 50)).setTo(102); // 0.4, no piece
    const Seen seen = type(drawn);
    REQUIRE(seen.features.size() == 2);
    const double expected = std::log((200.0 * 50 + 100) / (30.0 * 30 + 40 * 50 + 100));
    CHECK(seen.of(0, Feature::unsurePhoto) == Approx(expected).margin(1e-4));
    CHECK(seen.of(1, Feature::unsurePhoto) == Approx(expected).margin(1e-4));
}

TEST_CASE("The type maps of a piece are averaged over it alone", "[debris]") {
    DrawnMaps drawn;
    drawn.disc({300, 200}, 20);
    const std::array<int, 5> shares{153, 51, 26, 15, 10}; // 0.6, 0.2, ...
    for (std::size_t t = 0; t < shares.size(); ++t)
        cv::circle(drawn.types[t], {150, 100}, 13, cv::Scalar(shares[t]), cv::FILLED);
    const Seen seen = type(drawn);
    CHECK(seen.of(0, Feature::brightMetal) == Approx(std::log(0.6)).margin(0.01));
    CHECK(seen.of(0, Feature::yellowMetal) == Approx(std::log(0.2)).margin(0.01));
    CHECK(seen.of(0, Feature::fibre) == Approx(std::log(10.0 / 255)).margin(0.01));
}

TEST_CASE("A seam within a piece counts by its share of the piece", "[debris]") {
    DrawnMaps drawn;
    drawn.piece(cv::Rect(200, 200, 40, 40)).setTo(255);
    drawn.seam(cv::Rect(218, 200, 4, 20)).setTo(255);
    const Seen seen = type(drawn);
    REQUIRE(seen.features.size() == 1);
    CHECK(seen.of(0, Feature::seamWithin) == Approx(4.0 * 20 / (40.0 * 40)).margin(0.01));
}

// By hand: the mean of the elongations, less what chance alone gives 30 of them.
TEST_CASE("Pieces elongated in one direction by the lamp show it, each with its own amount",
          "[debris]") {
    DrawnMaps drawn;
    for (int i = 0; i < 30; ++i)
        cv::ellipse(drawn.piece, {60 + 50 * (i % 10), 100 + 80 * (i / 10)},
                    i == 0 ? cv::Size(12, 12) : cv::Size(16, 8), 30.0, 0.0, 360.0, cv::Scalar(250),
                    cv::FILLED, cv::LINE_AA);
    const auto pieces = drawn.pieces();
    const Seen seen = type(drawn);
    REQUIRE(seen.features.size() == 30);
    cv::Point2d mean;
    double most = 0.0;
    for (const Candidate& c : pieces) {
        mean += elongationOf(c.outline) / 30.0;
        most = std::max(most, cv::norm(elongationOf(c.outline)));
    }
    const double shared = cv::norm(mean) - 0.45 / std::sqrt(30.0);
    CHECK(shared > 0.3);
    std::vector<double> along;
    for (std::size_t i = 0; i < seen.features.size(); ++i) {
        CHECK(seen.of(i, Feature::castStrength) == Approx(shared).margin(1e-5));
        along.push_back(seen.of(i, Feature::castAlong));
    }
    const auto [round, drawnOut] = std::minmax_element(along.begin(), along.end());
    CHECK(*round == Approx(0.0).margin(0.03)); // the disc
    CHECK(*drawnOut == Approx(most * shared).margin(0.02));
}

TEST_CASE("Means over all pieces of a photo are features of each piece", "[debris]") {
    DrawnMaps drawn;
    drawn.disc({200, 200}, 20);
    drawn.disc({400, 200}, 20, 200);
    cv::circle(drawn.piece, {400, 200}, 25, cv::Scalar(90), 6); // a rim above 0.3
    const Seen seen = type(drawn);
    REQUIRE(seen.features.size() == 2);
    for (std::size_t i = 0; i < 2; ++i) {
        CHECK(seen.of(i, Feature::photoGrowth) ==
              Approx((seen.of(0, Feature::growth) + seen.of(1, Feature::growth)) / 2));
        CHECK(seen.of(i, Feature::photoShrink) ==
              Approx((seen.of(0, Feature::shrink) + seen.of(1, Feature::shrink)) / 2).margin(1e-6));
        CHECK(seen.of(i, Feature::photoUnsureAround) ==
              Approx((std::log(seen.of(0, Feature::unsureAround) + 0.005) +
                      std::log(seen.of(1, Feature::unsureAround) + 0.005)) /
                     2)
                  .margin(1e-5));
    }
    CHECK(seen.of(0, Feature::photoGrowth) > 0.05);
    CHECK(seen.of(1, Feature::logSurfaceNoise) == Approx(std::log(someNoise + 0.001)));
}

// Linear light over the card's white: IEC 61966-2-1 through linearFromSrgb.
TEST_CASE("A piece's brightest and darkest parts are compared with the card's white", "[debris]") {
    DrawnMaps drawn;
    drawn.disc({300, 200}, 24, 250, {60, 60, 60});
    drawDisc(drawn.picture, {306, 200}, 8, {230, 230, 230});
    const Seen seen = type(drawn);
    REQUIRE(seen.features.size() == 1);
    CHECK(seen.of(0, Feature::whiteHigh) == Approx(linear(230) / linear(200)).margin(0.02));
    CHECK(seen.of(0, Feature::whiteLow) == Approx(linear(60) / linear(200)).margin(0.02));
}

TEST_CASE("Sealant is blue, steel under the sky and brass are not", "[debris]") {
    const auto shareOf = [](const cv::Scalar& colour) {
        DrawnMaps drawn;
        drawn.disc({300, 200}, 20, 250, colour);
        return blueShare(drawn.photo, drawn.crop, drawn.pieces().at(0));
    };
    CHECK(shareOf({130, 80, 45}) > 0.9);
    CHECK(shareOf({128, 122, 118}) < 0.05);
    CHECK(shareOf({60, 150, 190}) < 0.05);
    CHECK(shareOf({40, 40, 42}) < 0.05);
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/candidate.h"
#include "debris/drawn_maps.h"
#include "particles/shape.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

// The maps are drawn; the expected values are closed forms of discs and bars.

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

Shape shapeOf(const Candidate& c) {
    return measureShape(std::span<const cv::Point2d>(c.outline));
}

double longest(const Candidate& c) {
    return shapeOf(c).maxFeret;
}

/// A disc as the network should answer: each pixel's value is the share that the disc covers,
/// counted on 8 x 8 places within the pixel.
void coverByDisc(cv::Mat& piece, cv::Point2d centre, double radius) {
    constexpr int fine = 8;
    for (int y = 0; y < piece.rows; ++y)
        for (int x = 0; x < piece.cols; ++x) {
            int covered = 0;
            for (int i = 0; i < fine * fine; ++i) {
                const cv::Point2d at(x - 0.5 + (i % fine + 0.5) / fine,
                                     y - 0.5 + (i / fine + 0.5) / fine);
                covered += cv::norm(at - centre) < radius ? 1 : 0;
            }
            if (covered > 0)
                piece.at<uchar>(y, x) = static_cast<uchar>(covered * 255 / (fine * fine));
        }
}

} // namespace

// Closed forms of a disc: all Ferets 2 r, area pi r^2.
TEST_CASE("A disc's outline has its size and place to a fraction of a pixel", "[debris]") {
    for (const double radius : {2.3, 4.0, 9.7, 25.2}) {
        DrawnMaps drawn;
        const cv::Point2d centre(200.3, 150.8);
        coverByDisc(drawn.piece, centre, radius);
        const auto found = drawn.pieces();
        REQUIRE(found.size() == 1);
        const Shape shape = shapeOf(found[0]);
        INFO("radius " << radius);
        CHECK(shape.maxFeret == Approx(2.0 * radius).margin(0.35));
        CHECK(shape.minFeret == Approx(2.0 * radius).margin(0.35));
        // A polygon lies within its circle, the farther the fewer points it has.
        const double within = 0.02 + 0.25 / (radius * radius);
        CHECK(shape.area == Approx(std::numbers::pi * radius * radius).epsilon(within));
        CHECK(shape.centroid.x + drawn.crop.origin.x == Approx(centre.x).margin(0.05));
        CHECK(shape.centroid.y + drawn.crop.origin.y == Approx(centre.y).margin(0.05));
    }
}

TEST_CASE("Pieces come out one each, in reading order of their first pixels", "[debris]") {
    DrawnMaps drawn;
    drawn.disc({300, 200}, 8);
    drawn.disc({100, 100}, 20);
    const auto found = drawn.pieces();
    REQUIRE(found.size() == 2);
    CHECK(longest(found[0]) == Approx(41.0).margin(1.2)); // from pixel's far side to far side
    CHECK(longest(found[1]) == Approx(17.0).margin(1.2));
}

TEST_CASE("Two discs that touch are separated along a seam, and only there", "[debris]") {
    DrawnMaps drawn;
    drawn.disc({200, 200}, 20);
    drawn.disc({239, 200}, 20);
    CHECK(drawn.pieces().size() == 1);
    cv::line(drawn.seam, {220, 185}, {220, 215}, cv::Scalar(255), 3);
    const auto parted = drawn.pieces();
    REQUIRE(parted.size() == 2);
    for (const Candidate& c : parted) {
        CHECK(longest(c) == Approx(41.0).margin(2.5));
        CHECK_FALSE(c.mayBeSeveral);
    }
    const Shape left = shapeOf(parted[0]), right = shapeOf(parted[1]);
    CHECK(std::abs(left.centroid.x - right.centroid.x) == Approx(39.0).margin(1.5));
}

TEST_CASE("A seam that ends inside a piece separates nothing and is flagged", "[debris]") {
    DrawnMaps drawn;
    drawn.disc({200, 200}, 30);
    CHECK_FALSE(drawn.pieces().at(0).mayBeSeveral);
    cv::line(drawn.seam, {200, 170}, {200, 190}, cv::Scalar(255), 3);
    const auto found = drawn.pieces();
    REQUIRE(found.size() == 1);
    CHECK(found[0].mayBeSeveral);
}

TEST_CASE("Pixels under one half of the piece map are not outlined", "[debris]") {
    DrawnMaps drawn;
    drawn.disc({300, 200}, 15, 127);
    CHECK(drawn.pieces().empty());
}

TEST_CASE("Parts of fewer than four pixels are dropped", "[debris]") {
    DrawnMaps drawn;
    drawn.piece(cv::Rect(200, 200, 3, 1)).setTo(255);
    CHECK(drawn.pieces().empty());
    drawn.piece(cv::Rect(200, 200, 3, 2)).setTo(255);
    CHECK(drawn.pieces().size() == 1);
}

TEST_CASE("A faint bridge between two sure pieces joins neither to the other", "[debris]") {
    DrawnMaps drawn;
    drawn.disc({200, 200}, 15);
    drawn.disc({240, 200}, 15);
    cv::line(drawn.piece, {216, 200}, {224, 200}, cv::Scalar(110), 3);
    const auto found = drawn.pieces();
    REQUIRE(found.size() == 2);
    for (const Candidate& c : found)
        CHECK(longest(c) == Approx(31.0).margin(1.5));
}

TEST_CASE("Only a piece that touches the window's border is flagged as cut off", "[debris]") {
    DrawnMaps drawn;
    drawn.disc({300, 200}, 15);
    drawn.disc({5, 200}, 15);
    const auto found = drawn.pieces();
    REQUIRE(found.size() == 2);
    for (const Candidate& c : found)
        CHECK(c.atEdge == (c.box.x < 100));
}

TEST_CASE("A part excluded from the window holds no piece and bounds its neighbours", "[debris]") {
    DrawnMaps drawn;
    drawn.disc({200, 200}, 20);
    drawn.crop.inside = drawn.crop.inside.clone();
    drawn.crop.inside.colRange(200 - drawn.crop.origin.x, drawn.crop.inside.cols).setTo(0);
    const auto found = drawn.pieces();
    REQUIRE(found.size() == 1);
    CHECK(found[0].atEdge);
    for (const auto& p : found[0].outline)
        CHECK(p.x + drawn.crop.origin.x < 200.5);
}

// Closed form: of a cone of answers the level lines at 0.3, 1/2 and 0.7 have known radii.
TEST_CASE("A piece with a soft rim records how its size changes with the level", "[debris]") {
    DrawnMaps drawn;
    const cv::Point centre(300, 200);
    for (int y = 150; y <= 250; ++y)
        for (int x = 250; x <= 350; ++x) {
            const double away = cv::norm(cv::Point(x, y) - centre);
            drawn.piece.at<uchar>(y, x) =
                cv::saturate_cast<uchar>(255.0 * (0.5 + (20.0 - away) / 20.0));
        }
    const auto found = drawn.pieces();
    REQUIRE(found.size() == 1);
    CHECK(longest(found[0]) == Approx(40.0).margin(0.5));
    CHECK(found[0].growth == Approx(24.0 / 20.0).margin(0.05));
    CHECK(found[0].shrink == Approx(16.0 / 20.0).margin(0.05));
}

TEST_CASE("A ring is outlined on its outside and counts as filled", "[debris]") {
    DrawnMaps drawn;
    drawn.disc({300, 200}, 32);
    cv::circle(drawn.piece, {300, 200}, 26, cv::Scalar(0), cv::FILLED, cv::LINE_AA);
    const auto found = drawn.pieces();
    REQUIRE(found.size() == 1);
    CHECK(longest(found[0]) == Approx(65.0).margin(1.2));
    CHECK(found[0].areaPx == Approx(std::numbers::pi * 32.5 * 32.5).epsilon(0.05));
}

TEST_CASE("A thread one and a half pixels wide stays one, from tip to tip", "[debris]") {
    DrawnMaps drawn;
    cv::line(drawn.piece, {150, 120}, {330, 260}, cv::Scalar(200), 2, cv::LINE_AA);
    const auto found = drawn.pieces();
    REQUIRE(found.size() == 1);
    CHECK(longest(found[0]) == Approx(std::hypot(180.0, 140.0)).margin(3.0));
}

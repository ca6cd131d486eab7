// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/candidate.h"
#include "debris/cut_model.h"
#include "debris/drawn_window.h"
#include "particles/shape.h"

#include <catch2/catch.hpp>

#include <algorithm>

// The piece map is drawn as well here, so that only what is made of it is checked: closed forms of
// discs and bars.

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

const cv::Scalar background(200, 200, 200);
const cv::Scalar darkCode(40, 40, 40);
const Pixels edgeOfCandidates(1.8);

struct Drawn {
    cv::Mat picture = plainSurface({600, 400}, background, 1.0);
    cv::Mat piece{picture.size(), CV_8U, cv::Scalar(0)};
    cv::Mat seam{picture.size(), CV_8U, cv::Scalar(0)};

    void disc(cv::Point at, int radius, int certainty = 250) {
        drawDisc(picture, at, radius, darkCode);
        cv::circle(piece, at, radius, cv::Scalar(certainty), cv::FILLED, cv::LINE_AA);
    }

    [[nodiscard]] std::vector<Candidate> candidates() const {
        cv::Mat seen;
        cv::GaussianBlur(picture, seen, {0, 0}, 0.7);
        const WindowCrop crop = windowOf(seen);
        const cv::Rect window(crop.origin, crop.bgr.size());
        const PieceMap map{piece(window), seam(window)};
        return candidatesOf(crop, contrastField(crop), map, {CutModel(), edgeOfCandidates});
    }
};

double longest(const Candidate& c) {
    std::vector<PointOnCard> outline;
    for (const auto& p : c.outline)
        outline.push_back({p.x, p.y});
    return measureShape(outline).maxFeret;
}

} // namespace

TEST_CASE("Sure pieces come out at their size, one each", "[debris]") {
    Drawn drawn;
    drawn.disc({100, 100}, 20);
    drawn.disc({300, 200}, 8);
    const auto found = drawn.candidates();
    REQUIRE(found.size() == 2);
    const auto [small, large] = std::minmax({longest(found[0]), longest(found[1])});
    CHECK(large == Approx(41.0).margin(1.2)); // from pixel's far side to pixel's far side
    CHECK(small == Approx(17.0).margin(1.2));
}

TEST_CASE("Two discs that touch are parted along a seam, and only there", "[debris]") {
    Drawn drawn;
    drawn.disc({200, 200}, 20);
    drawn.disc({239, 200}, 20);
    CHECK(drawn.candidates().size() == 1);
    cv::line(drawn.seam, {220, 185}, {220, 215}, cv::Scalar(255), 3);
    const auto parted = drawn.candidates();
    REQUIRE(parted.size() == 2);
    for (const Candidate& c : parted)
        CHECK(longest(c) == Approx(41.0).margin(3.0));
}

TEST_CASE("A seam that ends inside a piece parts nothing and is flagged", "[debris]") {
    Drawn drawn;
    drawn.disc({200, 200}, 30);
    cv::line(drawn.seam, {200, 170}, {200, 190}, cv::Scalar(255), 3);
    const auto found = drawn.candidates();
    REQUIRE(found.size() == 1);
    CHECK(found[0].mayBeSeveral);
}

TEST_CASE("What the model only suspects is a candidate of its own, less certain", "[debris]") {
    Drawn drawn;
    drawn.disc({100, 100}, 15);
    drawn.disc({300, 200}, 15, 80);
    const auto found = drawn.candidates();
    REQUIRE(found.size() == 2);
    const auto [unsure, sure] = std::minmax({found[0].certainty, found[1].certainty});
    CHECK(sure > 0.9);
    CHECK(unsure < 0.4);
}

TEST_CASE("A fainter hunch than that is none", "[debris]") {
    Drawn drawn;
    drawn.disc({300, 200}, 15, 40);
    CHECK(drawn.candidates().empty());
}

TEST_CASE("Only what touches the window's border is flagged as cut off", "[debris]") {
    Drawn drawn;
    drawn.disc({300, 200}, 15);
    drawn.disc({5, 200}, 15);
    const auto found = drawn.candidates();
    REQUIRE(found.size() == 2);
    for (const Candidate& c : found)
        CHECK(c.atEdge == (c.box.x < 100));
}

TEST_CASE("Pieces that only the map joins are two where the surface shows between them",
          "[debris]") {
    Drawn drawn;
    drawn.disc({200, 200}, 20);
    drawn.disc({236, 200}, 10);
    cv::line(drawn.piece, {200, 200}, {236, 200}, cv::Scalar(140), 5); // over a gap of 5 px
    auto found = drawn.candidates();
    REQUIRE(found.size() == 2);
    const auto [small, large] = std::minmax({longest(found[0]), longest(found[1])});
    CHECK(large == Approx(41.0).margin(2.0));
    CHECK(small == Approx(21.0).margin(2.0));
}

TEST_CASE("A thread that the light breaks stays one", "[debris]") {
    Drawn drawn;
    for (int x = 150; x < 330; x += 40)
        cv::line(drawn.picture, {x, 200}, {x + 28, 200}, darkCode, 2);
    cv::line(drawn.piece, {150, 200}, {338, 200}, cv::Scalar(180), 2);
    const auto found = drawn.candidates();
    REQUIRE(found.size() == 1);
    CHECK(longest(found[0]) == Approx(188.0).margin(8.0));
}

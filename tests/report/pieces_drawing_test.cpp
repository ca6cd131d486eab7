// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/hand_made.h"
#include "report/pieces_drawing.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <vector>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

constexpr int canvasWidth = 1200, canvasHeight = 1400;

PiecesCanvas canvasOn(const Picture& picture, std::vector<Extent>& pictures) {
    PiecesCanvas canvas{picture.pen(), {0.0, 0.0}, canvasWidth, 20.0, false, {}};
    canvas.picture = [&](const cv::Mat&, Spot, Extent room) { pictures.push_back(room); };
    return canvas;
}

/// The longest unbroken run of rows of the pencil lead's grey in any column.
int leadRows(const cv::Mat& bgr) {
    int longest = 0;
    for (int x = 0; x < bgr.cols; ++x) {
        int run = 0;
        for (int y = 0; y < bgr.rows; ++y) {
            const auto& p = bgr.at<cv::Vec3b>(y, x);
            const bool lead = std::abs(p[0] - 77) < 3 && p[0] == p[1] && p[1] == p[2]; // grey(0.3)
            run = lead ? run + 1 : 0;
            longest = std::max(longest, run);
        }
    }
    return longest;
}

} // namespace

TEST_CASE(
    "present pieces and those of the last visit are drawn at one scale, and as high as measured") {
    const ReportedPieces pieces = handMadeModel().pieces;
    const Picture picture(canvasWidth, canvasHeight);
    std::vector<Extent> pictures;
    PiecesCanvas canvas = canvasOn(picture, pictures);
    const double drawn = drawPieces(canvas, pieces);
    canvas.measureOnly = true;
    CHECK(drawPieces(canvas, pieces) == Approx(drawn));
    REQUIRE(pictures.size() == pieces.now.size() + pieces.before.size());
    for (const Extent& room : pictures) {
        CHECK(room.width == Approx(pictures.front().width));
        CHECK(room.height == Approx(pictures.front().width));
    }
}

// ISO 9177-1: leads of 0.7 mm. Its drawn thickness beside a crop's width is 0.7 mm beside the
// crop's field; a pixel is lost to smoothing at either edge.
TEST_CASE("the pencil lead is drawn at the scale of the pieces") {
    ReportedPieces pieces = handMadeModel().pieces;
    const double field = GENERATE(2.0, 4.0, 8.0);
    pieces.field = Millimetres(field);
    const Picture picture(canvasWidth, canvasHeight);
    std::vector<Extent> pictures;
    drawPieces(canvasOn(picture, pictures), pieces);
    const double expected = 0.7 / field * pictures.front().width;
    CHECK(std::abs(leadRows(picture.bgr()) - expected) <= 2.0);
}

TEST_CASE("titles say how many pieces there are, and what the last visit shows") {
    ReportedPieces pieces = handMadeModel().pieces;
    CHECK(nowTitle(pieces) == "Now: 18 pieces; the 6 largest are shown");
    CHECK(beforeTitle(pieces) == "Last visit, 2022-05-02: the largest pieces");
    pieces.restedOn = true;
    CHECK(beforeTitle(pieces) ==
          "Last visit, 2022-05-02: none surely so large; these were the largest of bright metal");
    pieces.countBefore = 2;
    CHECK(beforeTitle(pieces) ==
          "Last visit, 2022-05-02: 2 of this size or larger, and the next largest");
    pieces.before.clear();
    CHECK(beforeTitle(pieces) == "Last visit, 2022-05-02: none of this type");
    pieces.beforeDate.clear();
    CHECK(beforeTitle(pieces).empty());
    pieces.count = 1;
    pieces.now.resize(1);
    CHECK(nowTitle(pieces) == "Now: 1 piece");
}

TEST_CASE("without pieces nothing is drawn") {
    const Picture picture(10, 10);
    std::vector<Extent> pictures;
    CHECK(drawPieces(canvasOn(picture, pictures), {}) == 0.0);
}

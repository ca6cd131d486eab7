// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "debris/drawn_window.h"
#include "debris/piece_model.h"
#include "debris/shipped_models.h"
#include "files/temporary_folder.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

// What is expected is known from drawing: where the piece lies and where only its shadow does.

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

const cv::Scalar whitePaper(200, 200, 200);
const cv::Point discCentre(300, 200);
constexpr int discRadius = 20;
const Pixels sharp(1.8);

/// What the model says of a drawn picture, asked about one box round the discCentre.
PieceMap judged(const cv::Mat& drawn, Pixels blur = sharp, int reach = 70) {
    cv::Mat picture;
    cv::GaussianBlur(drawn, picture, {0, 0}, blur.value() / 2.56);
    const WindowCrop crop = windowOf(picture);
    const cv::Point at = inCrop(crop, discCentre);
    const cv::Rect box(at.x - reach, at.y - reach, 2 * reach + 1, 2 * reach + 1);
    return shippedModels().pieces.judge(crop, contrastField(crop), {box}, blur);
}

double meanWithin(const cv::Mat& map, cv::Point centre, int r) {
    cv::Mat disc(map.size(), CV_8U, cv::Scalar(0));
    cv::circle(disc, centre, r, cv::Scalar(255), cv::FILLED);
    return cv::mean(map, disc)[0] / 255.0;
}

cv::Point onMap(cv::Point inPicture) {
    return inPicture - cv::Point(3, 3); // the window leaves out a thin rim
}

} // namespace

TEST_CASE("A dark piece is seen, the whitePaper round it is not", "[debris]") {
    cv::Mat drawn = plainSurface({600, 400}, whitePaper, 1.0);
    drawDisc(drawn, discCentre, discRadius, {40, 40, 40});
    const PieceMap map = judged(drawn);
    CHECK(map.piece.type() == CV_8U);
    CHECK(meanWithin(map.piece, onMap(discCentre), discRadius - 3) > 0.8);
    CHECK(meanWithin(map.piece, onMap(discCentre + cv::Point(discRadius + 15, 0)), 5) < 0.1);
}

TEST_CASE("A soft shadow beside a piece is no piece", "[debris]") {
    cv::Mat drawn = plainSurface({600, 400}, whitePaper, 1.0);
    cv::Mat shade(drawn.size(), CV_32F, cv::Scalar(1));
    cv::ellipse(shade, discCentre + cv::Point(18, 6), {26, 16}, 20, 0, 360, cv::Scalar(0.72),
                cv::FILLED);
    cv::GaussianBlur(shade, shade, {0, 0}, 4.0);
    cv::Mat three, lit;
    cv::merge(std::vector<cv::Mat>{shade, shade, shade}, three);
    drawn.convertTo(lit, CV_32FC3);
    lit = lit.mul(three);
    lit.convertTo(drawn, CV_8UC3);
    drawDisc(drawn, discCentre, discRadius, {60, 75, 85});
    const PieceMap map = judged(drawn);
    CHECK(meanWithin(map.piece, onMap(discCentre), discRadius - 3) > 0.8);
    CHECK(meanWithin(map.piece, onMap(discCentre + cv::Point(36, 12)), 4) <
          0.35); // an outline's level
}

TEST_CASE("A box too large to be seen at once is answered for as a small one", "[debris]") {
    cv::Mat drawn = plainSurface({1400, 900}, whitePaper, 1.0);
    drawDisc(drawn, discCentre, discRadius, {40, 40, 40});
    drawDisc(drawn, discCentre + cv::Point(330, 70), discRadius, {40, 40, 40}); // across two parts
    cv::GaussianBlur(drawn, drawn, {0, 0}, sharp.value() / 2.56);
    const WindowCrop crop = windowOf(drawn);
    const ContrastField field = contrastField(crop);
    const auto& model = shippedModels().pieces;
    const PieceMap whole = model.judge(crop, field, {{0, 0, 1200, 800}}, sharp);
    for (const cv::Point disc : {discCentre, discCentre + cv::Point(330, 70)}) {
        const cv::Point corner = inCrop(crop, disc) - cv::Point(100, 100);
        const cv::Rect box(corner.x / 4 * 4, corner.y / 4 * 4, 200, 200); // cells as in the large
        const PieceMap alone = model.judge(crop, field, {box}, sharp);
        const cv::Rect middle(box.x + 60, box.y + 60, 80, 80);
        CHECK(cv::norm(whole.piece(middle), alone.piece(middle), cv::NORM_INF) <= 1.0);
        CHECK(cv::mean(whole.piece(middle))[0] > 30.0);
    }
}

TEST_CASE("A piece in a photo of wide edges is seen as well", "[debris]") {
    // As 48 megapixels show it: everything 2.2 times as large, edges too.
    cv::Mat drawn = plainSurface({600, 400}, whitePaper, 1.0);
    drawDisc(drawn, discCentre, 44, {40, 40, 40});
    const PieceMap map = judged(drawn, Pixels(4.0), 110);
    CHECK(meanWithin(map.piece, onMap(discCentre), 38) > 0.8);
    CHECK(meanWithin(map.piece, onMap(discCentre + cv::Point(70, 0)), 8) < 0.1);
}

TEST_CASE("Where the model is not asked it says nothing", "[debris]") {
    cv::Mat drawn = plainSurface({600, 400}, whitePaper, 1.0);
    drawDisc(drawn, discCentre, discRadius, {40, 40, 40});
    const WindowCrop crop = windowOf(drawn);
    const PieceMap map = shippedModels().pieces.judge(crop, contrastField(crop), {}, sharp);
    CHECK(map.piece.size() == crop.bgr.size());
    CHECK(cv::countNonZero(map.piece) == 0);
    CHECK(cv::countNonZero(map.seam) == 0);
}

TEST_CASE("Many boxes of odd sizes give the answers that one gives", "[debris]") {
    // Boxes share a sheet with others: what lies on the sheet beside must not leak in.
    cv::Mat drawn = plainSurface({600, 400}, whitePaper, 1.0);
    drawDisc(drawn, discCentre, 10, {40, 40, 40});
    const WindowCrop crop = windowOf(drawn);
    const ContrastField field = contrastField(crop);
    const cv::Point at = inCrop(crop, discCentre);
    const cv::Rect own(at.x - 45, at.y - 45, 91, 91);
    std::vector<cv::Rect> boxes{own};
    for (int i = 0; i < 40; ++i)
        boxes.emplace_back(5 + i, 3 + i, 11 + i % 7, 17 + i % 5);
    const auto& model = shippedModels().pieces;
    const cv::Mat alone = model.judge(crop, field, {own}, sharp).piece;
    const cv::Mat among = model.judge(crop, field, boxes, sharp).piece;
    CHECK(std::abs(meanWithin(alone, at, 8) - meanWithin(among, at, 8)) < 0.02);
}

TEST_CASE("A missing or damaged piece model is refused with a sentence", "[debris]") {
    const TemporaryFolder folder;
    CHECK_THROWS_WITH(PieceModel::load(folder / "no-such-model.onnx"), Catch::Contains("missing"));
    const auto file = folder / "damaged-model.onnx";
    std::ofstream(file) << "not a network";
    CHECK_THROWS_AS(PieceModel::load(file), ToolError);
}

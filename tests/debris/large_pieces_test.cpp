// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/drawn_window.h"
#include "debris/enter_large_pieces.h"
#include "debris/large_pieces.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>

#include <cmath>
#include <numbers>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

constexpr PixelsPerMillimetre reducedScale(3.0);

/// A reduced window of paper, darker to one side, 120 x 90 mm.
cv::Mat reducedPaper() {
    cv::Mat picture = plainSurface({360, 270}, {200, 205, 203}, 1.5);
    for (int y = 0; y < picture.rows; ++y)
        for (int x = 0; x < picture.cols; ++x)
            picture.at<cv::Vec3b>(y, x) *= 1.0 - 0.25 * x / picture.cols;
    return picture;
}

cv::Mat everywhere(const cv::Mat& picture) {
    return {picture.size(), CV_8U, cv::Scalar(255)};
}

double areaMm2(const cv::Mat& mask) {
    return cv::countNonZero(mask) / (reducedScale.value() * reducedScale.value());
}

} // namespace

TEST_CASE("Large plates are found at their area, dark, bright or of another colour", "[debris]") {
    const double across = GENERATE(2.5, 4.0, 8.0); // mm
    const cv::Scalar colour = GENERATE(cv::Scalar(45, 48, 50), cv::Scalar(90, 160, 195),
                                       cv::Scalar(250, 250, 250), cv::Scalar(130, 132, 135));
    cv::Mat picture = reducedPaper();
    drawDisc(picture, {180, 135},
             static_cast<int>(std::lround(0.5 * across * reducedScale.value())), colour);
    const cv::Mat large = largePieces(picture, everywhere(picture), reducedScale);
    // Of a disc, closed form; a reduced pixel's width to each side is left to the finer map.
    const double drawn =
        2.0 * std::round(0.5 * across * reducedScale.value()) / reducedScale.value();
    const double disc = std::numbers::pi * drawn * drawn / 4.0;
    const double rim = std::numbers::pi * across / reducedScale.value();
    INFO(across << " mm, blue " << colour[0]);
    CHECK(areaMm2(large) == Approx(disc).margin(rim));
    CHECK(large.at<uchar>(135, 180) == 255);
}

TEST_CASE("A stain without an edge, a soft shadow and paper's noise are no large piece",
          "[debris]") {
    cv::Mat picture = reducedPaper();
    CHECK(cv::countNonZero(largePieces(picture, everywhere(picture), reducedScale)) == 0);
    cv::Mat stain = picture.clone();
    drawDisc(stain, {120, 100}, 14, {120, 150, 175});
    cv::GaussianBlur(stain, stain, {}, 6.0); // an edge 5 mm wide
    CHECK(cv::countNonZero(largePieces(stain, everywhere(stain), reducedScale)) == 0);
}

TEST_CASE("What is larger than a piece, or lies outside the window, is left alone", "[debris]") {
    cv::Mat picture = reducedPaper();
    drawDisc(picture, {120, 135}, 27, {40, 40, 40}); // 18 mm
    drawDisc(picture, {300, 135}, 9, {40, 40, 40});
    cv::Mat inside = everywhere(picture);
    inside.colRange(270, 360).setTo(0);
    CHECK(cv::countNonZero(largePieces(picture, inside, reducedScale)) == 0);
}

TEST_CASE("Under a plate of 8 mm the surface is that around it, and the map shows all of it",
          "[debris]") {
    cv::Mat picture = plainSurface({1600, 1200}, {150, 160, 165}, 2.0);
    const int radius = 80; // px, of 20 a millimetre
    drawDisc(picture, {800, 600}, radius, {50, 52, 55});
    const WindowCrop crop = windowOf(picture);
    const ContrastField field = contrastField(crop);
    const cv::Point middle = inCrop(crop, {800, 600});
    const auto beneath = field.background.at<cv::Vec3b>(middle);
    for (int channel = 0; channel < 3; ++channel)
        CHECK(beneath[channel] == Approx(cv::Vec3b(150, 160, 165)[channel]).margin(3.0));
    CHECK(crop.inside.at<uchar>(middle) == 255);     // measured as before
    CHECK(field.noiseAt(middle.x, middle.y) < 3.0F); // of the surface, not of the plate
    PieceMap map{cv::Mat::zeros(crop.bgr.size(), CV_8U), cv::Mat::zeros(crop.bgr.size(), CV_8U)};
    enterLargePieces(map, crop, field);
    const double disc = std::numbers::pi * radius * radius; // closed form
    CHECK(cv::countNonZero(map.piece > 127) == Approx(disc).epsilon(0.03));
}

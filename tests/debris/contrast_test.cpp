// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/contrast.h"
#include "debris/drawn_window.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

constexpr double chromaGain = 1.5; // as in contrast.h: two colour differences beside the luma

/// The colour distance of two 8-bit colours as the field's own words define it.
double distanceOf(const cv::Scalar& a, const cv::Scalar& b) {
    const cv::Scalar d = a - b;
    const double luma = (d[0] + 2.0 * d[1] + d[2]) / 4.0;
    const double blueRed = (d[2] - d[0]) / 2.0;
    const double green = (2.0 * d[1] - d[0] - d[2]) / 4.0;
    return std::sqrt(luma * luma + chromaGain * chromaGain * (blueRed * blueRed + green * green));
}

} // namespace

TEST_CASE("The contrast of a piece is its colour's distance from the surface", "[debris]") {
    const cv::Scalar paper(196, 200, 198);
    for (const cv::Scalar& colour : {cv::Scalar(40, 40, 40), cv::Scalar(250, 250, 250),
                                     cv::Scalar(60, 170, 200), cv::Scalar(40, 60, 120)}) {
        cv::Mat picture = plainSurface({800, 600}, paper, 1.5);
        drawDisc(picture, {400, 300}, 16, colour);
        const WindowCrop crop = windowOf(picture);
        const ContrastField field = contrastField(crop);
        CHECK(field.contrast.at<float>(inCrop(crop, {400, 300})) ==
              Approx(distanceOf(colour, paper)).margin(3.0));
        CHECK(field.contrast.at<float>(inCrop(crop, {100, 100})) < 8.0F);
    }
}

TEST_CASE("Brighter and darker by the same amount stand out alike", "[debris]") {
    cv::Mat picture = plainSurface({800, 600}, {140, 140, 140}, 0.0);
    drawDisc(picture, {250, 300}, 14, {90, 90, 90});
    drawDisc(picture, {550, 300}, 14, {190, 190, 190});
    const WindowCrop crop = windowOf(picture);
    const ContrastField field = contrastField(crop);
    CHECK(field.contrast.at<float>(inCrop(crop, {250, 300})) == Approx(50.0).margin(1.0));
    CHECK(field.contrast.at<float>(inCrop(crop, {550, 300})) == Approx(50.0).margin(1.0));
}

TEST_CASE("Under a piece the background is the surface beside it", "[debris]") {
    cv::Mat picture(600, 800, CV_8UC3);
    for (int y = 0; y < picture.rows; ++y) // a lamp at the right: 60 codes over 40 mm
        for (int x = 0; x < picture.cols; ++x) {
            const auto code = static_cast<uchar>(150 + 60 * x / picture.cols);
            picture.at<cv::Vec3b>(y, x) = {code, code, code};
        }
    drawDisc(picture, {200, 300}, 20, {20, 20, 20});
    drawDisc(picture, {600, 300}, 20, {20, 20, 20});
    const WindowCrop crop = windowOf(picture);
    const ContrastField field = contrastField(crop);
    CHECK(field.background.at<cv::Vec3b>(inCrop(crop, {200, 300}))[1] == Approx(165).margin(3));
    CHECK(field.background.at<cv::Vec3b>(inCrop(crop, {600, 300}))[1] == Approx(195).margin(3));
    CHECK(field.contrast.at<float>(inCrop(crop, {400, 500})) < 4.0F);
}

TEST_CASE("The noise follows the surface's own", "[debris]") {
    const auto noiseOf = [](double sigma) {
        const cv::Mat picture = plainSurface({800, 600}, {150, 150, 150}, sigma);
        return contrastField(windowOf(picture)).noiseAt(400, 300);
    };
    const float one = noiseOf(3.0);
    CHECK(one > 0.5F);
    CHECK(noiseOf(6.0) == Approx(2.0 * double(one)).epsilon(0.15));
    CHECK(noiseOf(12.0) == Approx(4.0 * double(one)).epsilon(0.15));
}

TEST_CASE("Outside the window there is no contrast, and nothing there affects the inside",
          "[debris]") {
    cv::Mat picture = plainSurface({800, 600}, {180, 180, 180}, 1.0);
    picture.colRange(0, 60).setTo(cv::Scalar(10, 10, 10));
    WindowCrop crop = windowOf(picture);
    const int frame = 60 - crop.origin.x;
    crop.inside.colRange(0, frame).setTo(0);
    const ContrastField field = contrastField(crop);
    CHECK(cv::countNonZero(field.contrast.colRange(0, frame)) == 0);
    double most = 0.0;
    cv::minMaxLoc(field.contrast.colRange(frame + 4, field.contrast.cols), nullptr, &most);
    CHECK(most < 14.0); // the least contrast of a piece
}

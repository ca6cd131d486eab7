// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/calibrated_photo.h"
#include "card/why_no_card.h"
#include "rendered/rendered_card.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

/// Discs of all sizes and shades on grey: edges in every direction, no card.
cv::Mat discs() {
    cv::Mat picture(1500, 2000, CV_8UC3, cv::Scalar::all(120));
    cv::RNG dice(11);
    for (int i = 0; i < 200; ++i) {
        const cv::Scalar shade = cv::Scalar::all(dice.uniform(20, 230));
        const int radius = dice.uniform(15, 70);
        const cv::Point centre{dice.uniform(0, 2000), dice.uniform(0, 1500)};
        cv::circle(picture, centre, radius, shade, cv::FILLED, cv::LINE_AA);
    }
    return picture;
}

cv::Mat blurred(const cv::Mat& picture, double sigma) {
    cv::Mat out;
    cv::GaussianBlur(picture, out, {}, sigma);
    return out;
}

/// An even motion of so many px, sloping.
cv::Mat moved(const cv::Mat& picture, int length) {
    cv::Mat way(length, length, CV_32F, cv::Scalar(0)), out;
    cv::line(way, {0, length / 3}, {length - 1, 2 * length / 3}, cv::Scalar(1));
    cv::filter2D(picture, out, -1, way / cv::sum(way)[0]);
    return out;
}

std::string reasonFor(const cv::Mat& picture) {
    Photo photo;
    photo.bgr = picture;
    const auto found = calibratePhoto(photo, allLayouts(), std::nullopt);
    if (found)
        return "none";
    CHECK_FALSE(found.error().advice.empty());
    return std::string(reasonName(found.error().reason));
}

} // namespace

// A Gaussian's slope is its step over sigma sqrt(2 pi): twice the blur, half the slope.
TEST_CASE("The sharpest slope falls as the blur grows", "[card]") {
    cv::Mat grey;
    cv::cvtColor(discs(), grey, cv::COLOR_BGR2GRAY);
    const double sharp = sharpestSlope(grey);
    CHECK(sharp > 0.6);
    const double ten = sharpestSlope(blurred(grey, 10.0));
    const double twenty = sharpestSlope(blurred(grey, 20.0));
    CHECK(ten < 0.25);
    CHECK(twenty < ten);
    CHECK(twenty > 0.1); // of a blur far wider than a reduced pixel: one eighth
    CHECK(sharpestSlope(moved(grey, 40)) < 0.3);
    CHECK(sharpestSlope(cv::Mat(1, 900, CV_8U, cv::Scalar(90))) == 1.0);
    CHECK(sharpestSlope(cv::Mat(600, 800, CV_8U, cv::Scalar(90))) == 1.0); // nothing to judge it by
}

TEST_CASE("A card that blur has made unreadable is not reported as missing", "[card]") {
    Drawing drawing;
    drawing.layout = layoutNamed("close");
    const cv::Mat sharp = photograph(drawing, Camera{}, Exposure{}).bgr;
    CHECK(reasonFor(sharp) == "none");
    CHECK(reasonFor(blurred(sharp, 12.0)) == "blurred");
    CHECK(reasonFor(moved(sharp, 60)) == "blurred");
    CHECK(reasonFor(cv::Mat(sharp * 4.0)) == "clipped");
    CHECK(reasonFor(cv::Mat(sharp * 0.02)) == "too_dark");
}

TEST_CASE("A sharp photo without a card is reported as having none", "[card]") {
    CHECK(reasonFor(discs()) == "no_card");
    CHECK(reasonFor(cv::Mat(900, 1200, CV_8UC3, cv::Scalar(90, 110, 130))) == "no_card");
}

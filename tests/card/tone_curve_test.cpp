// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/calibrated_photo.h"
#include "card/tone_curve.h"
#include "rendered/rendered_card.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

double srgbCode(double linear) {
    return linear <= 0.0031308 ? 12.92 * linear : 1.055 * std::pow(linear, 1.0 / 2.4) - 0.055;
}

/// Steps of a printer: Murray-Davies with the dot larger by `gain` at half coverage; paper has 60 %
/// of the range.
std::vector<GreyStep> stepsOf(double gain, double black, const ToneCurve& bend) {
    constexpr double paper = 0.6;
    std::vector<GreyStep> steps;
    for (const double ink : {0.2, 0.4, 0.6, 0.8, 1.0}) {
        const double dot = ink + 4.0 * gain * ink * (1.0 - ink);
        const double share = 1.0 - dot * (1.0 - black);
        steps.push_back({ink, bend.bent(srgbCode(paper * share)), bend.bent(srgbCode(paper))});
    }
    return steps;
}

cv::Mat bentPicture(const cv::Mat& picture, const ToneCurve& bend) {
    cv::Mat table(1, 256, CV_8U), bent;
    for (int code = 0; code < 256; ++code)
        table.at<uchar>(code) = cv::saturate_cast<uchar>(255.0 * bend.bent(code / 255.0));
    cv::LUT(picture, table, bent);
    return bent;
}

Photo plainCard() {
    static const View view = [] {
        Drawing drawing;
        drawing.layout = layoutNamed("close");
        return View(drawing, Camera{});
    }();
    return view.exposed(Exposure{});
}

} // namespace

// Source: Murray-Davies (area coverage and reflectance), printers' usual dot gain from memory.
TEST_CASE("Effects of printers on the grey steps do not count as a bend of the tones", "[card]") {
    for (const double gain : {-0.02, 0.0, 0.02, 0.05, 0.08})
        for (const double black : {0.03, 0.04, 0.05}) {
            INFO("dot gain " << gain << ", black " << black);
            CHECK_FALSE(toneCurveOf(stepsOf(gain, black, {})));
        }
}

TEST_CASE("A strong bend of the tones is found from the grey steps", "[card]") {
    for (const double contrast : {0.8, 1.0})
        for (const double gain : {0.0, 0.04}) {
            INFO("contrast " << contrast << ", dot gain " << gain);
            const ToneCurve bend{contrast, 1.0};
            const auto told = toneCurveOf(stepsOf(gain, 0.04, bend));
            REQUIRE(told);
            for (const double code : {0.2, 0.4, 0.6, 0.8}) {
                const double bentCode = bend.bent(code);
                CHECK(told->straightened().at<uchar>(static_cast<int>(255.0 * bentCode)) / 255.0 ==
                      Approx(code).margin(0.05));
            }
        }
}

TEST_CASE("A smudged step, or too few steps, give no bend", "[card]") {
    auto steps = stepsOf(0.02, 0.04, {});
    steps[1].code *= 0.6;
    CHECK_FALSE(toneCurveOf(steps));
    steps = stepsOf(0.02, 0.04, {1.0, 1.0});
    steps.resize(3);
    CHECK_FALSE(toneCurveOf(steps));
}

TEST_CASE("Straightening takes a bend back, code by code", "[card]") {
    for (const ToneCurve& bend : {ToneCurve{0.7, 1.0}, ToneCurve{-0.3, 1.2}, ToneCurve{0.0, 0.8}}) {
        const cv::Mat table = bend.straightened();
        CHECK(table.at<uchar>(0) == 0);
        CHECK(table.at<uchar>(255) == 255);
        for (int code = 20; code < 240; code += 10) {
            const double bent = 255.0 * bend.bent(code / 255.0);
            CHECK(std::abs(table.at<uchar>(static_cast<int>(std::lround(bent))) - code) <= 2);
        }
    }
}

TEST_CASE("A photo with bent tones is straightened before it is measured, and says so", "[card]") {
    const Photo plain = plainCard();
    const auto straight = calibratePhoto(plain, allLayouts(), std::nullopt);
    REQUIRE(straight);
    CHECK(straight->cautions.empty());
    Photo bent = plain;
    bent.bgr = bentPicture(plain.bgr, {1.0, 1.0});
    const auto measured = calibratePhoto(bent, allLayouts(), std::nullopt);
    REQUIRE(measured);
    REQUIRE(measured->cautions.size() == 1);
    CHECK(measured->cautions.front().find("tones are bent") != std::string::npos);
    CHECK(measured->light.medianCode == Approx(straight->light.medianCode).margin(8));
    CHECK(measured->sharpness.edgeWidth.value() ==
          Approx(straight->sharpness.edgeWidth.value()).epsilon(0.15));
    CHECK(bent.bgr.at<cv::Vec3b>(5, 5) == bentPicture(plain.bgr, {1.0, 1.0}).at<cv::Vec3b>(5, 5));
}

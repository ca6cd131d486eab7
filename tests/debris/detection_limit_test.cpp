// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "base/errors.h"
#include "debris/detection_limit.h"
#include "debris/drawn_window.h"
#include "files/temporary_folder.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

// Log-odds 2 ln(times) - ln(noise / 0.01) - 0.5 ln(unsureness / 0.04) - 1 towards 0.95; the usual
// unsureness is four times the noise and counts as five pieces.
constexpr double constant = -7.21461; // -1 + ln 0.01 + 0.5 ln 0.04
const char* const logOdds = R"({"format": "swarfbook detection model 2", "most": 0.95,
    "constant": -7.21461, "per_log_size": 2.0, "per_log_surface_noise": -1.0,
    "per_log_unsureness": -0.5, "at_floor": 0.9, "counted_from_balance": 0.72, "quietest_surface": 0.005,
    "usual_unsureness": {"constant": 1.386294, "per_log_surface_noise": 1.0,
                         "counts_as_pieces": 5}})";

DetectionModel modelOf(const std::string& document) {
    return DetectionModel::load(TemporaryFile(document).path());
}

double noiseOf(const cv::Mat& picture) {
    const WindowCrop crop = windowOf(picture);
    return surfaceNoise(crop);
}

} // namespace

// Source: the log-odds model by hand.
TEST_CASE("The chance to be found follows the log-odds of size and noise", "[debris]") {
    const DetectionModel model = modelOf(logOdds);
    const SeeingConditions here{Millimetres(0.1), 0.01};
    CHECK(model.chance(Millimetres(0.1), here) ==
          Approx(0.95 / (1.0 + std::exp(1.0))).epsilon(1e-5));
    CHECK(model.chance(Millimetres(0.3), here) ==
          Approx(0.95 / (1.0 + std::exp(1.0) / 9.0)).epsilon(1e-5));
    // Twice the noise, and so twice the usual unsureness.
    CHECK(model.chance(Millimetres(0.3), {Millimetres(0.1), 0.02}) ==
          Approx(0.95 / (1.0 + std::pow(2.0, 1.5) * std::exp(1.0) / 9.0)).epsilon(1e-5));
    CHECK(constant == Approx(-1.0 + std::log(0.01) + 0.5 * std::log(0.04)).epsilon(1e-5));
}

// By hand: a weighted mean of the pieces' unsureness and the usual one.
TEST_CASE(
    "Many pieces show how unsure the network is in this photo, with few the usual value holds",
    "[debris]") {
    const DetectionModel model = modelOf(logOdds);
    const auto chanceWith = [&](int pieces, double unsure) {
        return model.chance(Millimetres(0.3), {Millimetres(0.1), 0.01, unsure, pieces});
    };
    const auto expected = [](double unsure) {
        return Approx(0.95 / (1.0 + std::sqrt(unsure / 0.04) * std::exp(1.0) / 9.0)).epsilon(1e-5);
    };
    CHECK(chanceWith(0, 0.0) == expected(0.04));
    CHECK(chanceWith(5, 0.10) == expected(0.07));
    CHECK(chanceWith(5, 0.02) == expected(0.03));
    CHECK(chanceWith(1000, 0.10) == expected((5 * 0.04 + 1000 * 0.10) / 1005));
}

TEST_CASE("At the size limit the chance to be found is nine in ten", "[debris]") {
    const DetectionModel model = modelOf(logOdds);
    for (const double noise : {0.01, 0.03, 0.2}) {
        const SeeingConditions here{Millimetres(0.17), noise};
        const Millimetres floor = model.detectionLimit(here);
        CHECK(model.chance(floor, here) == Approx(0.9).epsilon(1e-6));
        CHECK(floor > here.resolutionLimit);
    }
    // a quieter surface than any in the fit does not help further
    CHECK(model.detectionLimit({Millimetres(0.1), 0.001}) ==
          model.detectionLimit({Millimetres(0.1), 0.005}));
}

TEST_CASE("The size limit is never below the photo's resolution limit", "[debris]") {
    std::string easy = logOdds;
    easy.replace(easy.find("-7.21461"), 8, "9.0");
    const SeeingConditions here{Millimetres(0.17), 0.01};
    CHECK(modelOf(easy).detectionLimit(here) == here.resolutionLimit);
}

TEST_CASE("The size limit of the shipped model grows with noise, with doubt and with soft edges",
          "[debris]") {
    const auto model =
        DetectionModel::load(std::filesystem::path(SWARFBOOK_SOURCE_DIR) / "models/detection.json");
    const Millimetres paper = model.detectionLimit({Millimetres(0.1), 0.007});
    CHECK(paper > Millimetres(0.1));
    CHECK(model.detectionLimit({Millimetres(0.1), 0.03}) > paper);
    CHECK(model.detectionLimit({Millimetres(0.1), 0.007, 0.15, 50}) >
          model.detectionLimit({Millimetres(0.1), 0.007, 0.03, 50}));
    CHECK(model.detectionLimit({Millimetres(0.2), 0.007}).value() == Approx(2.0 * paper.value()));
}

// Source: noise of known sigma, drawn. Three channels alike: the distance is that of luma alone, of
// which the median of |N(0, sigma)| is 0.674 sigma; noiseTiles counts 1.18 for the two colour
// differences as well, which independent noise in the channels has.
TEST_CASE("The noise of a surface is a share of its light", "[debris]") {
    const double one = noiseOf(plainSurface({800, 600}, {160, 160, 160}, 4.0));
    CHECK(one > 0.005);
    CHECK(one < 0.04);
    CHECK(noiseOf(plainSurface({800, 600}, {160, 160, 160}, 8.0)) ==
          Approx(2.0 * one).epsilon(0.15));
    CHECK(noiseOf(plainSurface({800, 600}, {80, 80, 80}, 4.0)) == Approx(2.0 * one).epsilon(0.15));
    cv::Mat withPieces = plainSurface({800, 600}, {160, 160, 160}, 4.0);
    for (int i = 0; i < 6; ++i)
        drawDisc(withPieces, {150 + 100 * i, 300}, 8, {40, 40, 40});
    CHECK(noiseOf(withPieces) ==
          Approx(one).epsilon(0.05)); // debris does not count as noise of the surface
}

TEST_CASE("A window of which nothing is measured still has a noise", "[debris]") {
    WindowCrop crop = windowOf(plainSurface({800, 600}, {160, 160, 160}, 4.0));
    const double usual = surfaceNoise(crop);
    crop.inside = cv::Mat::zeros(crop.inside.size(), CV_8U);
    CHECK(surfaceNoise(crop) == Approx(usual).epsilon(0.1));
}

TEST_CASE("A damaged detection model is reported in a sentence", "[debris]") {
    CHECK_THROWS_AS(DetectionModel::load("/nowhere/detection.json"), ToolError);
    CHECK_THROWS_AS(modelOf("{"), ToolError);
    std::string never = logOdds;
    never.replace(never.find("0.95"), 4, "0.85"); // nine of ten would never be found
    CHECK_THROWS_AS(modelOf(never), ToolError);
    std::string helps = logOdds; // doubt of the network would make pieces easier to find
    helps.replace(helps.find("-0.5"), 4, "0.5");
    CHECK_THROWS_AS(modelOf(helps), ToolError);
}

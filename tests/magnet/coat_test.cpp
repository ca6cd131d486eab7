// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/coat.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>

#include <random>

using namespace swarfbook;

// Outside truth: the squares that are drawn furred, counted while they are drawn.

namespace {

constexpr double scale = 16.0; // px/mm
constexpr int side = 30 * 16;  // of a face of 30 mm

struct FaceOfSquares {
    TopView view;
    Silhouette silhouette;
    double furred = 0.0; ///< share
};

/// A face of squares of 2 mm, bare ones smooth, furred ones of dark lines with darker gaps; the
/// left half sends `left`, the right half `right` of white paper's light.
FaceOfSquares squares(double left, double right, double cover) {
    constexpr int square = 32;
    FaceOfSquares face;
    face.view.pxPerMm = scale;
    face.view.area = {0.0, 0.0, 40.0, 40.0};
    face.view.light = cv::Mat(640, 640, CV_32F, cv::Scalar(1.0));
    std::mt19937 random(3);
    std::uniform_real_distribution<double> number(0.0, 1.0);
    int all = 0, furred = 0;
    for (int y = 0; y < side; y += square)
        for (int x = 0; x < side; x += square) {
            const cv::Rect at(80 + x, 80 + y, square, square);
            const double bare = x < side / 2 ? left : right;
            cv::Mat patch = face.view.light(at);
            const double lot = number(random);
            patch.setTo(bare);
            ++all;
            if (lot >= cover)
                continue;
            ++furred;
            for (int line = 0; line < square; line += 2) {
                const double shade = 0.01 + 0.05 * number(random);
                patch.colRange(line, line + 2).setTo(shade);
            }
        }
    cv::Mat noise(face.view.light.size(), CV_32F);
    cv::RNG(5).fill(noise, cv::RNG::NORMAL, 1.0, 0.03);
    face.view.light = face.view.light.mul(noise);
    face.silhouette.body = cv::Mat::zeros(640, 640, CV_8U);
    face.silhouette.body(cv::Rect(80, 80, side, side)).setTo(255);
    face.silhouette.whole = face.silhouette.tips = face.silhouette.body;
    face.silhouette.hole = cv::Mat::zeros(640, 640, CV_8U);
    face.furred = static_cast<double>(furred) / all;
    return face;
}

} // namespace

TEST_CASE("the covered share of a face that mirrors a lamp on one side is right") {
    const double cover = GENERATE(0.2, 0.47, 0.8);
    // polished: a lamp on the left, the dark room on the right; then an even and a dark face
    const auto [left, right] =
        GENERATE(table<double, double>({{0.6, 0.2}, {0.15, 0.15}, {0.09, 0.09}}));
    const FaceOfSquares face = squares(left, right, cover);
    CAPTURE(cover, left, right);
    const Coat coat = coatOf(face.view, face.silhouette);
    const CoveredShare share =
        coveredShareOf(face.view, coat, face.silhouette, face.silhouette.body);
    CHECK(share.value == Approx(face.furred).margin(0.04)); // the limit the product is held to
    // What is called surely bare is hardly ever a strand.
    cv::Mat strands;
    cv::blur(face.view.light, strands, {5, 5});
    strands = (strands < 0.05) & face.silhouette.body;
    CHECK(cv::countNonZero(coat.bare & strands) <= 0.02 * cv::countNonZero(face.silhouette.body));
}

TEST_CASE("a face without any fuzz is not covered") {
    const FaceOfSquares bare = squares(0.15, 0.15, 0.0);
    CHECK(coveredShareOf(bare.view, coatOf(bare.view, bare.silhouette), bare.silhouette,
                         bare.silhouette.body)
              .value < 0.04);
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/mask_tools.h"
#include "magnet/outline_shape.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>

#include <cmath>
#include <numbers>
#include <random>

using namespace swarfbook;

// Outside truth: closed forms of circle and rectangle; the points are made here.

namespace {

std::vector<cv::Point2d> noisy(const std::vector<cv::Point2d>& points, double spread,
                               unsigned seed) {
    std::mt19937 random(seed);
    std::normal_distribution<double> error(0.0, spread);
    std::vector<cv::Point2d> out;
    for (const cv::Point2d& p : points) {
        const double down = error(random), across = error(random);
        out.emplace_back(p.x + across, p.y + down);
    }
    return out;
}

std::vector<cv::Point2d> circle(cv::Point2d centre, double radius, int points) {
    std::vector<cv::Point2d> out;
    for (int i = 0; i < points; ++i)
        out.emplace_back(centre.x + radius * std::cos(2 * std::numbers::pi * i / points),
                         centre.y + radius * std::sin(2 * std::numbers::pi * i / points));
    return out;
}

std::vector<cv::Point2d> rectangle(cv::Point2d centre, double w, double h, double turn) {
    std::vector<cv::Point2d> out;
    const auto add = [&](double x, double y) {
        out.emplace_back(centre.x + x * std::cos(turn) - y * std::sin(turn),
                         centre.y + x * std::sin(turn) + y * std::cos(turn));
    };
    for (double x = -w / 2; x <= w / 2; x += 0.25) {
        add(x, -h / 2);
        add(x, h / 2);
    }
    for (double y = -h / 2; y <= h / 2; y += 0.25) {
        add(-w / 2, y);
        add(w / 2, y);
    }
    return out;
}

} // namespace

TEST_CASE("a noisy circle is fitted as a disc") {
    const auto fit = fitOutline(noisy(circle({52.0, 40.0}, 18.5, 300), 0.2, 1));
    REQUIRE(fit.shape.round());
    CHECK(fit.shape.centre.x == Approx(52.0).margin(0.05)); // 0.2 mm / sqrt(150)
    CHECK(fit.shape.centre.y == Approx(40.0).margin(0.05));
    CHECK(fit.shape.width == Approx(37.0).margin(0.08));
}

TEST_CASE("strands on a tenth of the rim do not pull the disc with them") {
    auto points = noisy(circle({52.0, 40.0}, 15.0, 300), 0.05, 2);
    for (std::size_t i = 0; i < 30; ++i)
        points[i] += (points[i] - cv::Point2d(52.0, 40.0)) * 0.2;
    const auto fit = fitOutline(points);
    REQUIRE(fit.shape.round());
    CHECK(fit.shape.width == Approx(30.0).margin(0.15));
}

TEST_CASE("a turned rectangle is fitted as a block, a square too") {
    const double turn = GENERATE(-0.7, 0.0, 0.1, 0.6);
    const double height = GENERATE(19.0, 44.0);
    const auto fit = fitOutline(noisy(rectangle({50.0, 41.0}, 44.0, height, turn), 0.1, 3));
    REQUIRE_FALSE(fit.shape.round());
    const double longer = std::max(fit.shape.width, fit.shape.height);
    const double shorter = std::min(fit.shape.width, fit.shape.height);
    CHECK(longer == Approx(44.0).margin(0.1));
    CHECK(shorter == Approx(height).margin(0.1));
    CHECK(fit.shape.centre.x == Approx(50.0).margin(0.05));
}

TEST_CASE("too few points are an error of the caller") {
    CHECK_THROWS_AS(fitOutline(circle({0.0, 0.0}, 5.0, 11)), std::logic_error);
}

TEST_CASE("distances from the outline, and along it, agree with geometry") {
    const OutlineShape block{{10.0, 10.0}, 8.0, 4.0, 0.0, 1.0};
    const OutlineFrame frame(block);
    CHECK(frame.outside({10.0, 10.0}) == Approx(-2.0));
    CHECK(frame.outside({15.0, 10.0}) == Approx(1.0));
    CHECK(frame.outside({16.0, 14.0}) == Approx(std::hypot(3.0, 3.0) - 1.0)); // from the corner
    CHECK(frame.lookUp({10.0, 13.0}).outward.y == Approx(1.0));
    CHECK(block.perimeter() == Approx(2 * (6.0 + 2.0) + 2 * std::numbers::pi));
    CHECK(block.area() == Approx(32.0 - (4.0 - std::numbers::pi)));

    // Walking round at a distance, the place along the rim runs once through the perimeter.
    double covered = 0.0, last = 0.0;
    const auto around = polygonOf(inset(block, -0.5), 0.05);
    for (std::size_t i = 0; i <= around.size(); ++i) {
        const double along = frame.lookUp(around[i % around.size()]).along;
        if (i > 0) {
            double step = along - last;
            if (step < -block.perimeter() / 2)
                step += block.perimeter();
            CHECK(step >= -1e-9);
            covered += step;
        }
        last = along;
    }
    CHECK(covered == Approx(block.perimeter()).margin(1e-6));
}

TEST_CASE("insets and enlargements keep a disc a disc") {
    const OutlineShape disc{{3.0, 4.0}, 20.0, 20.0, 0.0, 10.0};
    CHECK(inset(disc, 1.5).width == Approx(17.0));
    CHECK(inset(disc, 1.5).round());
    const OutlineShape bigger = enlarged(disc, {0.0, 0.0}, 1.1);
    CHECK(bigger.round());
    CHECK(bigger.width == Approx(22.0));
    CHECK(bigger.centre.y == Approx(4.4));
}

TEST_CASE("masks grow and shrink by the radius asked for") {
    const double radius = GENERATE(2.4, 4.0, 9.6, 32.0);
    cv::Mat mask = cv::Mat::zeros(400, 400, CV_8U);
    cv::circle(mask, {200, 200}, 100, cv::Scalar::all(255), cv::FILLED);
    const auto radiusOf = [](const cv::Mat& m) {
        return std::sqrt(cv::countNonZero(m) / std::numbers::pi);
    };
    // Right to a pixel, or a tenth where it is done on a coarser grid.
    const double tolerance = std::max(1.0, 0.1 * radius);
    CHECK(radiusOf(masks::grown(mask, radius)) == Approx(100.0 + radius).margin(tolerance));
    CHECK(radiusOf(masks::shrunk(mask, radius)) == Approx(100.0 - radius).margin(tolerance));
}

TEST_CASE("filling closes holes that the outside cannot reach") {
    cv::Mat mask = cv::Mat::zeros(60, 60, CV_8U);
    cv::circle(mask, {30, 30}, 20, cv::Scalar::all(255), 2);
    const cv::Mat whole = masks::filled(mask);
    CHECK(whole.at<unsigned char>(30, 30) == 255);
    CHECK(whole.at<unsigned char>(2, 2) == 0);
    cv::Mat two = whole.clone();
    two.at<unsigned char>(2, 2) = 255;
    CHECK(cv::countNonZero(masks::largestPiece(two)) == cv::countNonZero(whole));
    CHECK(cv::countNonZero(masks::piecesWith(two, mask)) == cv::countNonZero(whole));
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/contrast.h"
#include "debris/drawn_window.h"
#include "debris/threads.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

// Drawn threads of known course.

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

constexpr double edgeOfThreads = 1.8; // px
const cv::Scalar paperOfThreads(200, 200, 200);

/// A thread along an arc, darker than the paper by some codes, two pixels wide.
std::vector<cv::Point> drawArc(cv::Mat& picture, double codes) {
    std::vector<cv::Point> arc;
    for (int i = 0; i <= 120; ++i) {
        const double turn = 0.01 * i;
        arc.emplace_back(cv::Point2d(150 + 200 * std::sin(turn), 80 + 200 * (1 - std::cos(turn))));
    }
    cv::polylines(picture, arc, false, paperOfThreads - cv::Scalar::all(codes), 2, cv::LINE_AA);
    return arc;
}

/// Share of a course along which the map is sure, after some of its middle was shown to it.
double shareShown(cv::Mat picture, const std::vector<cv::Point>& course, PieceMap* kept = nullptr) {
    cv::GaussianBlur(picture, picture, {0, 0}, 0.7);
    const WindowCrop crop = windowOf(picture);
    PieceMap map{cv::Mat::zeros(crop.bgr.size(), CV_8U), cv::Mat::zeros(crop.bgr.size(), CV_8U)};
    for (std::size_t i = 45; i < 60; ++i)
        cv::line(map.piece, inCrop(crop, course[i]), inCrop(crop, course[i + 1]), cv::Scalar(200),
                 2);
    enterThreads(map, crop, contrastField(crop), edgeOfThreads);
    cv::Mat sure = map.piece > 127;
    cv::dilate(sure, sure, cv::Mat::ones(5, 5, CV_8U));
    double shown = 0.0;
    for (const cv::Point& p : course)
        shown += sure.at<uchar>(inCrop(crop, p)) != 0 ? 1.0 : 0.0;
    if (kept != nullptr)
        *kept = map;
    return shown / static_cast<double>(course.size());
}

} // namespace

TEST_CASE("A faint thread is followed from the part that is seen", "[debris]") {
    cv::Mat picture = plainSurface({600, 400}, paperOfThreads, 3.0);
    const auto course = drawArc(picture, 22);
    CHECK(shareShown(picture, course) > 0.8);
}

TEST_CASE("Where there is no thread none is followed", "[debris]") {
    cv::Mat picture = plainSurface({600, 400}, paperOfThreads, 3.0);
    cv::Mat elsewhere = picture.clone();
    const auto course = drawArc(elsewhere, 22);
    for (std::size_t i = 45; i < 60; ++i) // only the part that the map shows
        cv::line(picture, course[i], course[i + 1], paperOfThreads - cv::Scalar::all(22), 2,
                 cv::LINE_AA);
    CHECK(shareShown(picture, course) < 0.3); // it holds an eighth of the course
}

TEST_CASE("A lump is no thread and is left as it is", "[debris]") {
    cv::Mat picture = plainSurface({600, 400}, paperOfThreads, 3.0);
    const WindowCrop crop = windowOf(picture);
    PieceMap map{cv::Mat::zeros(crop.bgr.size(), CV_8U), cv::Mat::zeros(crop.bgr.size(), CV_8U)};
    cv::circle(map.piece, {200, 200}, 9, cv::Scalar(230), cv::FILLED);
    const cv::Mat before = map.piece.clone();
    enterThreads(map, crop, contrastField(crop), edgeOfThreads);
    CHECK(cv::norm(before, map.piece, cv::NORM_INF) == 0.0);
}

TEST_CASE("Long and thin is a thread, wide or short is none", "[debris]") {
    const auto bar = [](int length, int width) {
        cv::Mat mask(120, 220, CV_8U, cv::Scalar(0));
        cv::rectangle(mask, {10, 40, length, width}, cv::Scalar(255), cv::FILLED);
        return mask;
    };
    CHECK(isThread(bar(60, 2), edgeOfThreads));
    CHECK_FALSE(isThread(bar(60, 6), edgeOfThreads));
    CHECK_FALSE(isThread(bar(7, 2), edgeOfThreads));
    CHECK_FALSE(isThread(cv::Mat::zeros(9, 9, CV_8U), edgeOfThreads));
}

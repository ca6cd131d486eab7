// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/trend_chart.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>

using namespace swarfbook;

namespace {

ReportedTrendPoint scored(std::int64_t visit, double km, double value) {
    WearScore score;
    score.value = value;
    score.low = value - 5.0;
    score.high = value + 5.0;
    return {visit, "2025-01-0" + std::to_string(visit), km, score};
}

ReportedTrendPoint unscored(std::int64_t visit, double km) {
    return {visit, "2025-01-0" + std::to_string(visit), km, NoWearScore{"not known", ""}};
}

/// Centres of the chart's round points: solid black after thin lines and letters are worn away.
std::vector<cv::Point2d> pointsIn(const std::vector<ReportedTrendPoint>& trend) {
    const Picture picture(1200, 700);
    drawTrendChart(picture.pen(), {{20.0, 20.0}, {1160.0, 660.0}, 22.0}, trend);
    cv::Mat gray, dark, labels, stats, centres;
    cv::cvtColor(picture.bgr(), gray, cv::COLOR_BGR2GRAY);
    cv::morphologyEx(gray < 100, dark, cv::MORPH_OPEN,
                     cv::getStructuringElement(cv::MORPH_ELLIPSE, {11, 11}));
    const int count = cv::connectedComponentsWithStats(dark, labels, stats, centres);
    std::vector<cv::Point2d> points;
    for (int i = 1; i < count; ++i)
        points.emplace_back(centres.at<double>(i, 0), centres.at<double>(i, 1));
    std::sort(points.begin(), points.end(), [](auto a, auto b) { return a.x < b.x; });
    return points;
}

} // namespace

TEST_CASE("the chart's points are in proportion to odometer and score") {
    const auto points =
        pointsIn({scored(1, 50000.0, 10.0), scored(2, 70000.0, 20.0), scored(3, 130000.0, 40.0)});
    REQUIRE(points.size() == 3);
    // 20,000 km and 60,000 km; 10 and 20 points of score.
    CHECK((points[2].x - points[1].x) / (points[1].x - points[0].x) == Approx(3.0).epsilon(0.02));
    CHECK((points[2].y - points[1].y) / (points[1].y - points[0].y) == Approx(2.0).epsilon(0.03));
    CHECK(points[2].y < points[0].y);
}

TEST_CASE("a visit without a score has no point on the chart") {
    CHECK(pointsIn({scored(1, 50000.0, 10.0), unscored(2, 70000.0), scored(3, 130000.0, 40.0)})
              .size() == 2);
}

TEST_CASE("visits with the same odometer reading, or without one, are still drawn") {
    CHECK(pointsIn({scored(1, 50000.0, 10.0), scored(2, 50000.0, 70.0)}).size() == 2);
    std::vector<ReportedTrendPoint> unknown{scored(1, 0.0, 10.0), scored(2, 0.0, 30.0)};
    unknown[1].odometerKm.reset();
    const auto points = pointsIn(unknown);
    REQUIRE(points.size() == 2);
    CHECK(points[1].x > points[0].x);
}

TEST_CASE("labels of near visits stand side by side in one row if it has room for all") {
    // as the small chart of page one has it: four visits, the last two near each other
    const std::vector<ReportedTrendPoint> trend{scored(1, 61200.0, 10.0), scored(2, 89800.0, 20.0),
                                                scored(3, 118300.0, 30.0),
                                                scored(4, 125000.0, 40.0)};
    constexpr double letter = 20.0;
    const Picture picture(800, 400);
    drawTrendChart(picture.pen(), {{10.0, 10.0}, {780.0, 380.0}, letter}, trend);
    cv::Mat gray;
    cv::cvtColor(picture.bgr(), gray, cv::COLOR_BGR2GRAY);
    // Below the axis and its marks (y 302 to 314) stand a date and a distance; where a label drops
    // there are four lines.
    const cv::Mat below = gray(cv::Rect(0, 316, 800, 84));
    int lines = 0;
    bool inLine = false;
    for (int y = 0; y < below.rows; ++y) {
        const bool ink = cv::countNonZero(below.row(y) < 128) > 8;
        lines += ink && !inLine ? 1 : 0;
        inLine = ink;
    }
    CHECK(lines == 2);
    const cv::Mat foot = gray(cv::Rect(0, 385, 800, 15));
    CHECK(cv::countNonZero(foot < 128) == 0);
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/grow_cores.h"

#include <catch2/catch.hpp>
#include <opencv2/core.hpp>

using namespace swarfbook;

// Source: by hand; a watershed lies along the lowest ground between two hills, whatever the place
// of their tops.
namespace {

/// A row of hills and valleys.
cv::Mat ground(const std::vector<uchar>& heights) {
    return cv::Mat(heights, true).reshape(1, 1);
}

std::vector<int> grown(const std::vector<uchar>& heights, std::vector<int> labels, uchar least) {
    cv::Mat all = cv::Mat(labels, true).reshape(1, 1);
    growCores(all, ground(heights), least);
    return {all.begin<int>(), all.end<int>()};
}

} // namespace

TEST_CASE("Cores meet in the lowest ground between them", "[debris]") {
    const std::vector<uchar> heights{200, 190, 180, 170, 120, 150, 220};
    CHECK(grown(heights, {1, 0, 0, 0, 0, 0, 2}, 100) == std::vector<int>{1, 1, 1, 1, 1, 2, 2});
    CHECK(grown(heights, {2, 0, 0, 0, 0, 0, 1}, 100) == std::vector<int>{2, 2, 2, 2, 2, 1, 1});
}

TEST_CASE("Pixels below the least height are joined to no core", "[debris]") {
    CHECK(grown({200, 150, 101, 102, 140}, {7, 0, 0, 0, 0}, 102) ==
          std::vector<int>{7, 7, 0, 0, 0});
    CHECK(grown({200, 150, 102, 102, 140}, {7, 0, 0, 0, 0}, 102) ==
          std::vector<int>{7, 7, 7, 7, 7});
}

TEST_CASE("Higher ground without a core goes to the core that reaches it over the higher valley",
          "[debris]") {
    CHECK(grown({200, 120, 250, 250, 110, 200}, {1, 0, 0, 0, 0, 2}, 100) ==
          std::vector<int>{1, 1, 1, 1, 2, 2});
}

TEST_CASE("Pixels that touch by a corner alone do not join", "[debris]") {
    cv::Mat labels = (cv::Mat_<int>(2, 2) << 1, 0, 0, 0);
    const cv::Mat height = (cv::Mat_<uchar>(2, 2) << 200, 0, 0, 200);
    growCores(labels, height, 100);
    CHECK(labels.at<int>(1, 1) == 0);
}

TEST_CASE("Two cones of one height are separated along the line between them", "[debris]") {
    cv::Mat height(41, 81, CV_8U), labels(41, 81, CV_32S, cv::Scalar(0));
    const cv::Point left(20, 20), right(60, 20);
    for (int y = 0; y < height.rows; ++y)
        for (int x = 0; x < height.cols; ++x) {
            const double away =
                std::min(cv::norm(cv::Point(x, y) - left), cv::norm(cv::Point(x, y) - right));
            height.at<uchar>(y, x) = cv::saturate_cast<uchar>(250.0 - 4.0 * away);
        }
    labels.at<int>(left) = 1;
    labels.at<int>(right) = 2;
    growCores(labels, height, 60);
    for (int y = 0; y < height.rows; ++y)
        for (int x = 0; x < height.cols; ++x)
            if (x < 39)
                CHECK(labels.at<int>(y, x) == 1);
            else if (x > 41)
                CHECK(labels.at<int>(y, x) == 2);
}

TEST_CASE("Nothing grows where there is no core", "[debris]") {
    CHECK(grown({200, 200, 200}, {0, 0, 0}, 100) == std::vector<int>{0, 0, 0});
}

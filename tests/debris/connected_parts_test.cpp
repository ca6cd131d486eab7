// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/connected_parts.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>

using namespace swarfbook;

namespace {

/// Every pixel by the part it belongs to, counted from 1; each pixel is asked for once.
cv::Mat labelsOf(const ConnectedParts& parts, cv::Size size) {
    cv::Mat labels(size, CV_32S, cv::Scalar(0));
    int label = 0;
    for (const ConnectedPart& part : parts) {
        ++label;
        const cv::Mat mask = part.maskIn({{0, 0}, size});
        REQUIRE(cv::countNonZero(mask) == part.area);
        REQUIRE(cv::boundingRect(mask) == part.box);
        REQUIRE(cv::countNonZero((labels != 0) & mask) == 0);
        labels.setTo(label, mask);
    }
    return labels;
}

} // namespace

// Reference: OpenCV's connectedComponents with 8 neighbours.
TEST_CASE("random masks fall into the parts that OpenCV's labels tell, in their order") {
    cv::RNG random(7);
    for (const int filled : {5, 30, 45, 60, 95}) {
        cv::Mat noise(83, 101, CV_8U), labels;
        random.fill(noise, cv::RNG::UNIFORM, 0, 100);
        const cv::Mat mask = noise < filled;
        const int count = cv::connectedComponents(mask, labels, 8);
        const ConnectedParts parts(mask, 1);
        CHECK(std::distance(parts.begin(), parts.end()) == count - 1);
        CHECK(cv::norm(labelsOf(parts, mask.size()), labels, cv::NORM_INF) == 0.0);
    }
}

// Closed form: drawn by hand.
TEST_CASE("arms that meet late, corners that touch and the picture's edge make one part") {
    const cv::Mat mask = (cv::Mat_<uchar>(4, 9) << 1, 0, 0, 1, 0, 0, 1, 0, 1, //
                          1, 0, 1, 0, 0, 0, 0, 0, 1,                          //
                          0, 1, 0, 0, 0, 0, 0, 0, 1,                          //
                          0, 0, 0, 0, 0, 1, 1, 1, 0);
    const ConnectedParts parts(mask, 1);
    REQUIRE(std::distance(parts.begin(), parts.end()) == 3);
    const auto& joined = *parts.begin();
    CHECK(joined.box == cv::Rect(0, 0, 4, 3));
    CHECK(joined.area == 5);
    CHECK(std::next(parts.begin())->area == 1);
    CHECK(std::next(parts.begin(), 2)->box == cv::Rect(5, 0, 4, 4));
    const ConnectedParts larger(mask, 2);
    CHECK(std::distance(larger.begin(), larger.end()) == 2);
}

TEST_CASE("an empty mask has no parts") {
    const ConnectedParts parts(cv::Mat::zeros(5, 40, CV_8U), 1);
    CHECK(parts.begin() == parts.end());
}

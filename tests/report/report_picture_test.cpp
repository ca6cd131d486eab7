// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/hand_made.h"
#include "report/report_picture.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>

using namespace swarfbook;
using namespace swarfbook::test;

namespace {

bool allWhite(const cv::Mat& part) {
    return cv::countNonZero(part.reshape(1) != 255) == 0;
}

} // namespace

TEST_CASE("the picture for a message is 1080 px wide and cuts nothing at its edges") {
    ReportModel model = handMadeModel();
    if (GENERATE(false, true))
        for (int i = 0; i < 40; ++i)
            model.suggestion->strongestReasons[0] += " and so on without an end in sight";
    const cv::Mat picture = reportPicture(model);
    CHECK(picture.cols == 1080);
    CHECK(picture.rows > 1080);
    CHECK(allWhite(picture.colRange(0, 30)));
    CHECK(allWhite(picture.colRange(1050, 1080)));
    CHECK(allWhite(picture.rowRange(0, 30)));
    CHECK(allWhite(picture.rowRange(picture.rows - 30, picture.rows)));
    CHECK_FALSE(allWhite(picture));
}

TEST_CASE("a report without photo or suggestion still makes a picture") {
    ReportModel model = handMadeModel();
    model.samples.clear();
    model.suggestion.reset();
    model.noSuggestion = "Nothing was measured.";
    CHECK(reportPicture(model).cols == 1080);
}

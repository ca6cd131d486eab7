// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "cli/terminal_picture.h"

#include <catch2/catch.hpp>
#include <opencv2/core.hpp>
#include <opencv2/imgproc.hpp>

#include <cstdlib>
#include <sixel.h>
#include <vector>

using namespace swarfbook::cli;

namespace {

/// What libsixel's own reader sees in sixel graphics.
cv::Mat readBack(std::string sixels) {
    unsigned char *pixels = nullptr, *palette = nullptr;
    int width = 0, height = 0, colours = 0;
    REQUIRE(SIXEL_SUCCEEDED(sixel_decode_raw(reinterpret_cast<unsigned char*>(sixels.data()),
                                             static_cast<int>(sixels.size()), &pixels, &width,
                                             &height, &palette, &colours, nullptr)));
    cv::Mat bgr(height, width, CV_8UC3);
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const unsigned char* colour = palette + 3 * pixels[y * width + x];
            bgr.at<cv::Vec3b>(y, x) = {colour[2], colour[1], colour[0]};
        }
    std::free(pixels);
    std::free(palette);
    return bgr;
}

} // namespace

// Source: DEC STD 070, chapter 9: graphics stand between DCS with final letter q and ST. The
// picture's colours: common practice, no source.
TEST_CASE("sixel graphics hold the picture's size and, within the palette, its colours") {
    cv::Mat picture(90, 120, CV_8UC3, cv::Scalar(200, 205, 210));
    cv::circle(picture, {40, 45}, 20, cv::Scalar(30, 60, 120), cv::FILLED);
    cv::rectangle(picture, {80, 20, 30, 12}, cv::Scalar(90, 200, 220), cv::FILLED);
    const std::string sixels = sixelsOf(picture);
    CHECK(sixels.find("\x1bP") == 1);
    CHECK(sixels.find("\x1b\\") == sixels.size() - 4);
    const cv::Mat seen = readBack(sixels.substr(1, sixels.size() - 3));
    REQUIRE(seen.size() == picture.size());
    CHECK(cv::norm(seen, picture, cv::NORM_L1) / static_cast<double>(3 * picture.total()) < 3.0);
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/piece_shares.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstddef>
#include <vector>

using namespace swarfbook;

namespace {

const cv::Size square(4, 4); // px: 2 x 2 cells, each answers for 2 x 2 pixels
constexpr int lanes = 8, cells = 4;

PieceMaps emptyMaps() {
    PieceMaps maps;
    maps.piece = cv::Mat::zeros(square, CV_8U);
    maps.seam = cv::Mat::zeros(square, CV_8U);
    for (cv::Mat& type : maps.types)
        type = cv::Mat::zeros(2, 2, CV_8U);
    return maps;
}

/// The map of pieces if each of its pixels has this logit.
cv::Mat piecesOf(float logit) {
    std::vector<float> numbers(2 * cells * lanes, 0.0F); // of 13 channels
    for (int cell = 0; cell < cells; ++cell)
        for (int i = 0; i < 4; ++i)
            numbers[static_cast<std::size_t>(cell * lanes + i)] = logit;
    PieceMaps maps = emptyMaps();
    writeShares({numbers.data(), lanes, cells}, {square.width, 0}, cv::Rect({0, 0}, square), maps);
    return maps.piece;
}

} // namespace

// Source: the logistic function in closed form.
TEST_CASE("A logit's share is off by one code at most, at the ends of its range too", "[debris]") {
    constexpr float greatest = 6.3F; // told apart up to here
    std::vector<float> logits{
        greatest, -greatest, std::nextafter(greatest, 0.0F), std::nextafter(-greatest, 0.0F),
        1e9F,     -1e9F};
    for (float logit = -8.0F; logit < 8.0F; logit += 0.013F)
        logits.push_back(logit);
    for (const float logit : logits) {
        INFO("logit " << logit);
        const double expected = 255.0 / (1.0 + std::exp(-double(logit)));
        double least = 0.0, most = 0.0;
        cv::minMaxLoc(piecesOf(logit), &least, &most);
        CHECK(least >= expected - 1.0);
        CHECK(most <= expected + 1.0);
    }
}

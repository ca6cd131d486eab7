// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/why_no_card.h"

#include <fmt/format.h>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace swarfbook {
namespace {

constexpr int reducedBy = 8;
constexpr double edgePixels = 0.0005; // of a picture: its steepest slopes. A sharp edge takes a
                                      // pixel a row in the picture and in the reduced one alike
constexpr double faintEdge = 3.0;     // codes over a reduced pixel: fainter edges show nothing
constexpr double smearedBelow = 0.35; // ours: sharp photos without a card give 0.7 to 1.5, photos
                                      // so smeared that no marker can be read 0.1 to 0.3
constexpr int darkBelow =
    70; // code; a card that is found is refused as well if its paper is under 60
constexpr double paperShare = 0.05;   // of a picture, at least, that a card's paper takes
constexpr int washedOutFrom = 252;    // code
constexpr double mostWashedOut = 0.3; // of the picture; paper, card and all

/// The slope, codes per pixel, that only the steepest `share` of the pixels exceed, in four
/// directions.
std::array<double, 4> steepSlopes(const cv::Mat& grey, double share) {
    cv::Mat across, down;
    cv::Scharr(grey, across, CV_32F, 1, 0, 1.0 / 32.0);
    cv::Scharr(grey, down, CV_32F, 0, 1, 1.0 / 32.0);
    const double diagonal = std::sqrt(0.5);
    const std::array<cv::Mat, 4> slopes{across, down, diagonal * (across + down),
                                        diagonal * (across - down)};
    std::array<double, 4> steep{};
    for (std::size_t i = 0; i < slopes.size(); ++i) {
        std::vector<float> values;
        values.reserve(slopes[i].total());
        for (int y = 0; y < grey.rows; ++y)
            for (int x = 0; x < grey.cols; ++x)
                values.push_back(std::abs(slopes[i].at<float>(y, x)));
        const auto at =
            values.begin() +
            static_cast<std::ptrdiff_t>((1.0 - share) * static_cast<double>(values.size() - 1));
        std::nth_element(values.begin(), at, values.end());
        steep[i] = *at;
    }
    return steep;
}

} // namespace

double sharpestSlope(const cv::Mat& grey) {
    if (std::min(grey.rows, grey.cols) < 8 * reducedBy)
        return 1.0;
    cv::Mat smooth, reduced;
    cv::GaussianBlur(grey, smooth, {}, 1.0);
    cv::resize(grey, reduced, {}, 1.0 / reducedBy, 1.0 / reducedBy, cv::INTER_AREA);
    const auto fine = steepSlopes(smooth, edgePixels);
    const auto coarse = steepSlopes(reduced, reducedBy * edgePixels);
    double least = 1.0;
    for (std::size_t i = 0; i < fine.size(); ++i) {
        if (coarse[i] >= faintEdge)
            least = std::min(least, fine[i] / coarse[i]);
    }
    return least;
}

Refusal whyNoCard(const cv::Mat& bgr, const Refusal& noCard) {
    cv::Mat grey;
    cv::extractChannel(bgr, grey, 1);
    const double brighter = cv::countNonZero(grey >= darkBelow) / static_cast<double>(grey.total());
    if (brighter < paperShare)
        return {RefusalReason::tooDark,
                fmt::format("The photo is dark: only {:.0f} % of it is lighter than {} (white is "
                            "255), and no card shows in it.",
                            100.0 * brighter, darkBelow),
                "Bring a lamp over the bench, or lengthen the exposure, and take the photo again."};
    const double washedOut =
        cv::countNonZero(grey >= washedOutFrom) / static_cast<double>(grey.total());
    if (washedOut > mostWashedOut)
        return {
            RefusalReason::clipped,
            fmt::format(
                "The photo is washed out over {:.0f} % of it, and no card shows in the rest.",
                100.0 * washedOut),
            "Touch the white paper on the phone's screen so that it exposes for it, or lower the "
            "exposure, and take the photo again."};
    if (sharpestSlope(grey) < smearedBelow)
        return {
            RefusalReason::blurred,
            "The photo is smeared all over: nothing in it has a sharp edge, and no card can be "
            "made out.",
            "Clean the lens, hold the phone still, touch the card on the screen to focus there, "
            "and take the photo again. If there was no card: lay it round the sample first."};
    return noCard;
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/find_markers.h"

#include <opencv2/aruco.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <vector>

namespace swarfbook {
namespace {

cv::Mat halved(const cv::Mat& grey) {
    cv::Mat half;
    cv::resize(grey(cv::Rect(0, 0, grey.cols / 2 * 2, grey.rows / 2 * 2)), half, {}, 0.5, 0.5,
               cv::INTER_AREA);
    return half;
}

/// The green channel halved, by bands of rows that stay in the processor's cache.
cv::Mat halvedGreen(const cv::Mat& bgr) {
    constexpr int band = 32; // rows of the halved picture
    cv::Mat half(bgr.rows / 2, bgr.cols / 2, CV_8U);
    cv::parallel_for_(cv::Range(0, (half.rows + band - 1) / band), [&](const cv::Range& bands) {
        for (int i = bands.start; i < bands.end; ++i) {
            const cv::Range rows(i * band, std::min(half.rows, (i + 1) * band));
            cv::Mat green;
            cv::extractChannel(bgr.rowRange(2 * rows.start, 2 * rows.end), green, 1);
            halved(green).copyTo(half.rowRange(rows));
        }
    });
    return half;
}

/// Halves the green channel until the factor is reached.
cv::Mat greenReducedBy(const cv::Mat& bgr, int factor) {
    if (factor > 1) {
        cv::Mat reduced = halvedGreen(bgr);
        for (; factor > 2; factor /= 2)
            reduced = halved(reduced);
        return reduced;
    }
    cv::Mat green;
    cv::extractChannel(bgr, green, 1);
    return green;
}

void searchReduced(const cv::Mat& reduced, double scale, std::map<int, MarkerCorners>& found) {
    cv::Mat grey = reduced;
    // An underexposed picture still has its markers, but below the search's fixed contrast limit.
    double darkest = 0.0;
    double brightest = 0.0;
    cv::minMaxLoc(grey, &darkest, &brightest);
    if (brightest < 128.0)
        cv::normalize(reduced, grey = cv::Mat(), 0, 255, cv::NORM_MINMAX);

    static const auto dictionary =
        cv::aruco::getPredefinedDictionary(cv::aruco::DICT_APRILTAG_36h11);
    const auto parameters = cv::aruco::DetectorParameters::create();
    parameters->adaptiveThreshWinSizeMin = 15;
    parameters->adaptiveThreshWinSizeMax = 35;
    parameters->adaptiveThreshWinSizeStep = 20;
    parameters->minMarkerPerimeterRate = 0.05;
    parameters->cornerRefinementMethod = cv::aruco::CORNER_REFINE_CONTOUR;
    std::vector<std::vector<cv::Point2f>> corners;
    std::vector<int> ids;
    cv::aruco::detectMarkers(grey, dictionary, corners, ids, parameters);
    for (std::size_t i = 0; i < ids.size(); ++i) {
        if (found.contains(ids[i]))
            continue;
        MarkerCorners full;
        for (std::size_t k = 0; k < 4; ++k) {
            const double x = (corners[i][k].x + 0.5) / scale - 0.5;
            const double y = (corners[i][k].y + 0.5) / scale - 0.5;
            full[k] = {static_cast<float>(x), static_cast<float>(y)};
        }
        found[ids[i]] = full;
    }
}

} // namespace

std::map<int, MarkerCorners> findMarkers(const cv::Mat& bgr) {
    constexpr std::size_t enough = 8; // of the ten of a card
    constexpr int leastSide = 16;     // px: two a module of a single marker
    if (std::min(bgr.cols, bgr.rows) < leastSide)
        return {};
    const int longSide = std::max(bgr.cols, bgr.rows);
    int factor = 1;
    while (longSide / (factor * 2) >= 900)
        factor *= 2;
    std::map<int, MarkerCorners> found;
    const cv::Mat coarse = greenReducedBy(bgr, factor);
    searchReduced(coarse, 1.0 / factor, found);
    if (found.size() < enough && factor > 1)
        searchReduced(greenReducedBy(bgr, factor / 2), 2.0 / factor, found);
    if (found.size() < enough && factor > 1)
        searchReduced(halved(coarse), 0.5 / factor, found); // blurred: coarser still
    return found;
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/find_markers.h"

#include <opencv2/aruco.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <vector>

namespace swarfbook {
namespace {

/// Halves the picture until the factor is reached: halving has a quick way, other factors have not.
cv::Mat reducedBy(const cv::Mat& bgr, int factor) {
    cv::Mat reduced = bgr;
    for (; factor > 1; factor /= 2) {
        cv::Mat half;
        cv::resize(reduced, half, {reduced.cols / 2, reduced.rows / 2}, 0, 0, cv::INTER_AREA);
        reduced = half;
    }
    return reduced;
}

void searchReduced(const cv::Mat& reduced, double scale, std::map<int, MarkerCorners>& found) {
    cv::Mat grey;
    cv::extractChannel(reduced, grey, 1);
    // An underexposed picture keeps its markers, but not above the search's fixed contrast floor.
    double darkest = 0.0;
    double brightest = 0.0;
    cv::minMaxLoc(grey, &darkest, &brightest);
    if (brightest < 128.0)
        cv::normalize(grey, grey, 0, 255, cv::NORM_MINMAX);

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
        if (found.count(ids[i]) > 0)
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
    const int longSide = std::max(bgr.cols, bgr.rows);
    int factor = 1;
    while (longSide / (factor * 2) >= 900)
        factor *= 2;
    std::map<int, MarkerCorners> found;
    const cv::Mat coarse = reducedBy(bgr, factor);
    searchReduced(coarse, 1.0 / factor, found);
    if (found.size() < enough && factor > 1)
        searchReduced(reducedBy(bgr, factor / 2), 2.0 / factor, found);
    if (found.size() < enough && factor > 1)
        searchReduced(reducedBy(coarse, 2), 0.5 / factor, found); // blurred: coarser still
    return found;
}

} // namespace swarfbook

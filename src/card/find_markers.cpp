// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/find_markers.h"

#include <opencv2/aruco.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

namespace swarfbook {
namespace {

void searchReduced(const cv::Mat& bgr, int factor, std::map<int, MarkerCorners>& found) {
    cv::Mat reduced;
    const double scale = 1.0 / factor;
    cv::resize(bgr, reduced, {bgr.cols / factor, bgr.rows / factor}, 0, 0, cv::INTER_AREA);
    cv::Mat grey;
    cv::cvtColor(reduced, grey, cv::COLOR_BGR2GRAY);
    // An underexposed picture keeps its markers, but not above the search's fixed contrast floor.
    double darkest = 0.0;
    double brightest = 0.0;
    cv::minMaxLoc(grey, &darkest, &brightest);
    if (brightest < 128.0)
        cv::normalize(grey, grey, 0, 255, cv::NORM_MINMAX);

    static const auto dictionary =
        cv::aruco::getPredefinedDictionary(cv::aruco::DICT_APRILTAG_36h11);
    const auto parameters = cv::aruco::DetectorParameters::create();
    parameters->adaptiveThreshWinSizeMin = 13;
    parameters->adaptiveThreshWinSizeMax = 43;
    parameters->adaptiveThreshWinSizeStep = 15;
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
    std::map<int, MarkerCorners> found;
    const int coarse = std::max(1, static_cast<int>(std::lround(longSide / 1000.0)));
    searchReduced(bgr, coarse, found);
    if (found.size() < enough && coarse > 1)
        searchReduced(bgr, std::max(1, coarse / 2), found);
    return found;
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/find_markers.h"

#include <opencv2/aruco.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <vector>

namespace swarfbook {
namespace {

void searchReduced(const cv::Mat& bgr, int longSide, std::map<int, MarkerCorners>& found) {
    const double scale =
        std::min(1.0, static_cast<double>(longSide) / std::max(bgr.cols, bgr.rows));
    cv::Mat reduced;
    cv::resize(bgr, reduced, {}, scale, scale, cv::INTER_AREA);
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
    constexpr std::size_t enough = 7; // of the ten of a card
    std::map<int, MarkerCorners> found;
    searchReduced(bgr, 1600, found);
    if (found.size() < enough)
        searchReduced(bgr, 1000, found);
    return found;
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/window_white.h"

#include "base/median.h"
#include "photo/linear_light.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace swarfbook {
namespace {

// All as in data.py.
constexpr int placesPerSide = 25;
constexpr std::array<double, 3> outside{1.2, 2.0, 2.8}; // mm from the window
constexpr int half = 3;                                 // px: a place is 7 x 7 px
constexpr double darkest = 1e-4;
constexpr double printOrShadow = 0.6; // of the brighter paper: darker places are not bare paper
constexpr int rounds = 6;
constexpr double mostSpreads = 2.5, leastSpread = 0.01;
constexpr double spreadOfMedian = 1.48; // a normal distribution's, of its median distance

std::vector<PointOnCard> placesRound(const CardRect& w) {
    std::vector<PointOnCard> places;
    for (int i = 0; i < placesPerSide; ++i) {
        const double t = 0.03 + 0.94 * i / (placesPerSide - 1);
        const double x = w.x + w.width * t, y = w.y + w.height * t;
        for (const double away : outside)
            places.insert(places.end(), {{x, w.y - away},
                                         {x, w.y + w.height + away},
                                         {w.x - away, y},
                                         {w.x + w.width + away, y}});
    }
    return places;
}

/// The logarithm of linear light at a place, each channel's median.
cv::Vec3d levelAt(const cv::Mat& bgr, cv::Point at) {
    std::array<std::vector<double>, 3> levels;
    for (int y = at.y - half; y <= at.y + half; ++y)
        for (int x = at.x - half; x <= at.x + half; ++x) {
            const auto& pixel = bgr.at<cv::Vec3b>(y, x);
            for (int c = 0; c < 3; ++c)
                levels[static_cast<std::size_t>(c)].push_back(
                    static_cast<double>(linearFromSrgb()[pixel[c]]));
        }
    cv::Vec3d level;
    for (int c = 0; c < 3; ++c)
        level[c] = std::log(
            std::max(upperMedianOf(std::move(levels[static_cast<std::size_t>(c)])), darkest));
    return level;
}

/// If the photo does not show the place, the value of the whole card's paper.
cv::Vec3d levelAt(const CalibratedPhoto& photo, PointOnCard p, PointInPhoto at) {
    const cv::Point pixel(static_cast<int>(std::lround(at.u)), static_cast<int>(std::lround(at.v)));
    const cv::Rect around(pixel.x - half, pixel.y - half, 2 * half + 1, 2 * half + 1);
    if ((around & cv::Rect({0, 0}, photo.bgr.size())) == around)
        return levelAt(photo.bgr, pixel);
    cv::Vec3d level;
    cv::log(photo.light.whiteAt(p), level);
    return level;
}

struct PaperPlace {
    cv::Vec<double, 6> terms;
    cv::Vec3d level;
    bool isKept = false;
};

void leaveOutDark(std::vector<PaperPlace>& places) {
    std::vector<double> green;
    for (const PaperPlace& place : places)
        green.push_back(place.level[1]);
    const auto bright = green.begin() + static_cast<std::ptrdiff_t>(green.size() * 4 / 5);
    std::nth_element(green.begin(), bright, green.end());
    for (PaperPlace& place : places)
        place.isKept = place.level[1] > *bright + std::log(printOrShadow);
}

cv::Matx<double, 6, 3> fitted(const std::vector<PaperPlace>& places) {
    cv::Mat_<double> rows(0, 6), levels(0, 3), found;
    for (const PaperPlace& place : places)
        if (place.isKept) {
            rows.push_back(cv::Mat(place.terms.t()));
            levels.push_back(cv::Mat(place.level.t()));
        }
    cv::solve(rows, levels, found, cv::DECOMP_SVD);
    return found;
}

void leaveOutOutlying(std::vector<PaperPlace>& places, const cv::Matx<double, 6, 3>& fit) {
    const auto off = [&](const PaperPlace& place) {
        return std::abs(place.level[1] - place.terms.dot(fit.col(1)));
    };
    std::vector<double> ofKept;
    for (const PaperPlace& place : places)
        if (place.isKept)
            ofKept.push_back(off(place));
    const double most =
        mostSpreads * std::max(leastSpread, spreadOfMedian * upperMedianOf(std::move(ofKept)));
    for (PaperPlace& place : places)
        place.isKept = off(place) < most;
}

} // namespace

WindowWhite::WindowWhite(const CalibratedPhoto& photo) : photo_(photo.bgr.size()) {
    std::vector<PaperPlace> places;
    for (const PointOnCard p : placesRound(photo.card.layout.window)) {
        const PointInPhoto at = photo.card.mapping.photoFromCard(p);
        places.push_back({termsAt(at), levelAt(photo, p, at)});
    }
    leaveOutDark(places);
    for (int round = 0; round < rounds; ++round) {
        fit_ = fitted(places);
        leaveOutOutlying(places, fit_);
    }
}

cv::Vec<double, 6> WindowWhite::termsAt(PointInPhoto p) const {
    constexpr double unit = 1000.0; // px
    const double x = (p.u - photo_.width / 2.0) / unit, y = (p.v - photo_.height / 2.0) / unit;
    return {1.0, x, y, x * x, x * y, y * y};
}

cv::Vec3d WindowWhite::at(PointInPhoto p) const {
    const auto terms = termsAt(p);
    cv::Vec3d light;
    for (int c = 0; c < 3; ++c)
        light[c] = std::exp(terms.dot(fit_.col(c)));
    return light;
}

} // namespace swarfbook

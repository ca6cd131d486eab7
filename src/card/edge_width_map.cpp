// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/edge_width_map.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace swarfbook {
namespace {

constexpr double leastScatter =
    0.03; // of a width: two edges may agree by chance, but a width is never read better (rendered
          // edges, tests/card/sharpness_test.cpp)

constexpr double covered = 1.5; // of the opposite edge's width: blur changes less over a square's
                                // side, but a piece on an edge may widen it by any amount

/// The widths of two opposite edges; where something lies on one of them, those of the other.
std::vector<double> uncovered(const std::vector<double>& pair) {
    const auto [least, most] = std::minmax(pair[0], pair[1]);
    return most > covered * least ? std::vector<double>{least, least} : pair;
}

double meanOf(const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

/// F distribution's 99 % point for squares - 1 and squares degrees of freedom (tables).
double limitOfF(std::size_t squares) {
    return squares >= 4 ? 16.69 : 30.82; // F(3, 4) and F(2, 3)
}

/// Whether the squares differ by more than the opposite edges of one square do.
bool differ(const std::vector<std::vector<double>>& pairs) {
    std::vector<double> means;
    double within = 0.0;
    for (const auto& pair : pairs) {
        means.push_back(meanOf(pair));
        for (const double width : pair)
            within += (width - means.back()) * (width - means.back());
    }
    const double all = meanOf(means);
    double between = 0.0;
    for (const double mean : means)
        between += 2.0 * (mean - all) * (mean - all);
    const auto n = static_cast<double>(pairs.size());
    const double scatter = std::max(within / n, leastScatter * leastScatter * all * all);
    return between / (n - 1.0) / scatter > limitOfF(pairs.size());
}

cv::Vec4d termsAt(PointOnCard p, PointOnCard middle) {
    const double x = p.x - middle.x, y = p.y - middle.y;
    return {1.0, x, y, x * y};
}

cv::Vec4d fit(const std::vector<PointOnCard>& places, PointOnCard middle,
              const std::vector<double>& widths) {
    const int terms = places.size() >= 4 ? 4 : 3;
    cv::Mat design(static_cast<int>(places.size()), terms, CV_64F);
    for (int i = 0; i < design.rows; ++i) {
        const cv::Vec4d t = termsAt(places[static_cast<std::size_t>(i)], middle);
        for (int k = 0; k < terms; ++k)
            design.at<double>(i, k) = t[k];
    }
    cv::Mat solution;
    cv::solve(design, cv::Mat(widths), solution, cv::DECOMP_SVD);
    cv::Vec4d coefficients;
    for (int k = 0; k < terms; ++k)
        coefficients[k] = solution.at<double>(k);
    return coefficients;
}

} // namespace

std::optional<EdgeWidthMap> EdgeWidthMap::through(const std::vector<SquareWidths>& squares) {
    std::vector<PointOnCard> places;
    std::vector<std::vector<double>> pairsX, pairsY;
    for (const SquareWidths& square : squares) {
        if (square.alongX.size() != 2 || square.alongY.size() != 2)
            continue;
        places.push_back(square.centre);
        pairsX.push_back(uncovered(square.alongX));
        pairsY.push_back(uncovered(square.alongY));
    }
    if (places.size() < 3 || !(differ(pairsX) || differ(pairsY)))
        return std::nullopt;
    EdgeWidthMap map;
    std::vector<double> alongX, alongY;
    for (std::size_t i = 0; i < places.size(); ++i) {
        map.middle_.x += places[i].x / static_cast<double>(places.size());
        map.middle_.y += places[i].y / static_cast<double>(places.size());
        alongX.push_back(meanOf(pairsX[i]));
        alongY.push_back(meanOf(pairsY[i]));
    }
    map.alongX_ = fit(places, map.middle_, alongX);
    map.alongY_ = fit(places, map.middle_, alongY);
    return map;
}

EdgeWidths EdgeWidthMap::at(PointOnCard p) const {
    constexpr double least = 0.5; // px: no pixel shows a sharper edge
    const cv::Vec4d terms = termsAt(p, middle_);
    return {p, Pixels(std::max(least, alongX_.dot(terms))),
            Pixels(std::max(least, alongY_.dot(terms)))};
}

std::vector<EdgeWidths> EdgeWidthMap::over(const CardRect& w) const {
    return {at({w.x, w.y}), at({w.x + w.width, w.y}), at({w.x + w.width, w.y + w.height}),
            at({w.x, w.y + w.height}), at({w.x + w.width / 2.0, w.y + w.height / 2.0})};
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/mask_tools.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace swarfbook::masks {
namespace {

constexpr double largeRadius = 5.0; // px: half the resolution is fine enough

/// Half the size, centres kept; an odd last row or column is doubled first.
cv::Mat halved(const cv::Mat& mask) {
    cv::Mat even, half;
    cv::copyMakeBorder(mask, even, 0, mask.rows % 2, 0, mask.cols % 2, cv::BORDER_REPLICATE);
    cv::resize(even, half, even.size() / 2, 0, 0, cv::INTER_AREA);
    return half >= 128;
}

cv::Mat restored(const cv::Mat& half, cv::Size size) {
    cv::Mat mask;
    cv::resize(half, mask, half.size() * 2, 0, 0, cv::INTER_LINEAR);
    return mask(cv::Rect({}, size)) >= 128;
}

cv::Mat exactDisc(double radius) {
    const int r = static_cast<int>(std::floor(radius + 0.3));
    cv::Mat element = cv::Mat::zeros(2 * r + 1, 2 * r + 1, CV_8U);
    for (int y = -r; y <= r; ++y)
        for (int x = -r; x <= r; ++x)
            if (x * x + y * y <= (radius + 0.3) * (radius + 0.3))
                element.at<unsigned char>(y + r, x + r) = 1;
    return element;
}

} // namespace

cv::Mat grown(const cv::Mat& mask, double radius) {
    if (radius > largeRadius)
        return restored(grown(halved(mask), radius / 2.0), mask.size());
    cv::Mat out;
    cv::dilate(mask, out, exactDisc(radius));
    return out;
}

cv::Mat shrunk(const cv::Mat& mask, double radius) {
    return ~grown(~mask, radius);
}

cv::Mat closed(const cv::Mat& mask, double radius) {
    return shrunk(grown(mask, radius), radius);
}

cv::Mat opened(const cv::Mat& mask, double radius) {
    return grown(shrunk(mask, radius), radius);
}

cv::Mat filled(const cv::Mat& mask) {
    cv::Mat framed;
    cv::copyMakeBorder(mask, framed, 1, 1, 1, 1, cv::BORDER_CONSTANT, cv::Scalar::all(0));
    cv::floodFill(framed, {0, 0}, cv::Scalar::all(128));
    return framed(cv::Rect({1, 1}, mask.size())) != 128;
}

cv::Mat largestPiece(const cv::Mat& mask) {
    cv::Mat labels, stats, centroids;
    const int n = cv::connectedComponentsWithStats(mask, labels, stats, centroids, 8, CV_32S);
    int best = 0;
    for (int i = 1; i < n; ++i)
        if (best == 0 || stats.at<int>(i, cv::CC_STAT_AREA) > stats.at<int>(best, cv::CC_STAT_AREA))
            best = i;
    return best == 0 ? cv::Mat::zeros(mask.size(), CV_8U) : cv::Mat(labels == best);
}

cv::Mat piecesWith(const cv::Mat& mask, const cv::Mat& seeds) {
    cv::Mat labels;
    const int n = cv::connectedComponents(mask, labels, 8, CV_32S);
    std::vector<unsigned char> keep(static_cast<std::size_t>(n), 0);
    for (int y = 0; y < mask.rows; ++y) {
        const auto* seed = seeds.ptr<unsigned char>(y);
        const int* label = labels.ptr<int>(y);
        for (int x = 0; x < mask.cols; ++x)
            if (seed[x] != 0)
                keep[static_cast<std::size_t>(label[x])] = 255;
    }
    keep[0] = 0;
    return ofLabels(labels, keep);
}

cv::Mat ofLabels(const cv::Mat& labels, const std::vector<unsigned char>& valueOfLabel) {
    cv::Mat mask(labels.size(), CV_8U);
    for (int y = 0; y < labels.rows; ++y) {
        const int* label = labels.ptr<int>(y);
        auto* out = mask.ptr<unsigned char>(y);
        for (int x = 0; x < labels.cols; ++x)
            out[x] = valueOfLabel[static_cast<std::size_t>(label[x])];
    }
    return mask;
}

std::vector<cv::Point> outerEdge(const cv::Mat& mask) {
    std::vector<std::vector<cv::Point>> edges;
    cv::findContours(mask, edges, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
    const auto longest =
        std::max_element(edges.begin(), edges.end(),
                         [](const auto& a, const auto& b) { return a.size() < b.size(); });
    return longest == edges.end() ? std::vector<cv::Point>{} : *longest;
}

cv::Mat disc(double radius) {
    const int r = std::max(1, static_cast<int>(std::lround(radius)));
    return cv::getStructuringElement(cv::MORPH_ELLIPSE, {2 * r + 1, 2 * r + 1});
}

cv::Mat stepWithin(const cv::Mat& image, double radius) {
    cv::Mat high, low;
    cv::dilate(image, high, disc(radius));
    cv::erode(image, low, disc(radius));
    return high - low;
}

double quantile(const cv::Mat& image, const cv::Mat& mask, double share, double otherwise) {
    std::vector<float> values;
    for (int y = 0; y < image.rows; ++y) {
        const auto* chosen = mask.ptr<unsigned char>(y);
        const float* value = image.ptr<float>(y);
        for (int x = 0; x < image.cols; ++x)
            if (chosen[x] != 0)
                values.push_back(value[x]);
    }
    if (values.empty())
        return otherwise;
    const auto at = std::min(values.size() - 1,
                             static_cast<std::size_t>(share * static_cast<double>(values.size())));
    std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(at),
                     values.end());
    return values[at];
}

} // namespace swarfbook::masks

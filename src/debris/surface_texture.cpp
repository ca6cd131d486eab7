// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/surface_texture.h"

#include "card/top_view.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

namespace swarfbook {
namespace {

constexpr double rimMm = 0.8;         // the cut edge and its shadow are the card's, not the surface
constexpr double unevenMm = 1.5;      // a slower change of light than this is not texture
constexpr float heldDown = 4.0F;      // robust sigmas: debris counts no more than a distinct mark
constexpr double plainCodes = 1.0;    // a surface that varies less shows no texture
constexpr double marksOfPlain = 2e-4; // share of the view over 5 sigmas

double medianOf(std::vector<float>& values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return static_cast<double>(*middle);
}

cv::Mat measuredIn(const TopView& view, const std::vector<LeftOut>& leftOut) {
    cv::Mat mask(view.light.size(), CV_8U, cv::Scalar(255));
    for (const LeftOut& part : leftOut) {
        std::vector<cv::Point> polygon;
        for (const PointOnCard& p : part.outline)
            polygon.emplace_back(view.inView({p.x, p.y}));
        cv::fillPoly(mask, std::vector<std::vector<cv::Point>>{polygon}, cv::Scalar(0));
    }
    return mask;
}

/// Robust sigma of the texture; fills in lightness, codes and strongShare.
float describe(SurfaceTexture& t, const cv::Mat& logLight) {
    std::vector<float> lights, sizes;
    for (int y = 0; y < t.value.rows; ++y)
        for (int x = 0; x < t.value.cols; ++x)
            if (t.mask.at<uchar>(y, x) != 0) {
                lights.push_back(logLight.at<float>(y, x));
                sizes.push_back(std::abs(t.value.at<float>(y, x)));
            }
    if (sizes.empty())
        return 1.0F;
    t.lightness = std::exp(medianOf(lights));
    const float sigma = std::max(static_cast<float>(medianOf(sizes) / 0.6745), 1e-4F);
    constexpr double gamma = 2.4, whiteLight = 0.6;
    t.codes = 255.0 * std::pow(whiteLight * t.lightness, 1.0 / gamma) / gamma *
              static_cast<double>(sigma);
    const auto strong =
        std::count_if(sizes.begin(), sizes.end(), [&](float size) { return size > 5.0F * sigma; });
    t.strongShare = static_cast<double>(strong) / static_cast<double>(sizes.size());
    return sigma;
}

} // namespace

cv::Rect2d viewedArea(const CalibratedPhoto& photo) {
    const CardRect& w = photo.card.layout.window;
    const double scale = photo.printScale.value;
    return {w.x * scale + rimMm, w.y * scale + rimMm, w.width * scale - 2.0 * rimMm,
            w.height * scale - 2.0 * rimMm};
}

SurfaceTexture textureOf(const SurfacePhoto& surface, const cv::Rect2d& area, double pxPerMm) {
    const TopView view = viewFromAbove(surface.photo, area, pxPerMm);
    SurfaceTexture t;
    t.pxPerMm = pxPerMm;
    t.mask = measuredIn(view, surface.window.leftOut);
    cv::Mat logLight, known, sum, weight;
    cv::log(cv::max(view.light, 0.002), logLight);
    t.mask.convertTo(known, CV_32F, 1.0 / 255.0);
    const double sigma = unevenMm * pxPerMm;
    cv::GaussianBlur(logLight.mul(known), sum, {}, sigma);
    cv::GaussianBlur(known, weight, {}, sigma);
    t.value = logLight - sum / cv::max(weight, 1e-3);
    cv::GaussianBlur(t.value, t.value, {}, 0.7);
    const float spread = describe(t, logLight);
    t.value = cv::min(cv::max(t.value / spread, -heldDown), heldDown);
    t.value.setTo(0.0F, t.mask == 0);
    return t;
}

bool isPlain(const SurfaceTexture& t) {
    return t.codes < plainCodes && t.strongShare < marksOfPlain;
}

} // namespace swarfbook

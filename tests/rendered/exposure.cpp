// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "rendered/exposure.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace swarfbook::test {
namespace {

/// sRGB encoding, IEC 61966-2-1.
double encoded(double linear) {
    const double l = std::clamp(linear, 0.0, 1.0);
    return 255.0 * (l <= 0.0031308 ? 12.92 * l : 1.055 * std::pow(l, 1.0 / 2.4) - 0.055);
}

/// Light of an even motion: the mean over a straight path, laid down on the pixels bilinearly.
cv::Mat_<cv::Vec3f> smeared(const cv::Mat_<cv::Vec3f>& light, double length, double turn) {
    const int reach = static_cast<int>(length / 2.0) + 2;
    cv::Mat_<float> kernel(2 * reach + 1, 2 * reach + 1, 0.0F);
    constexpr int steps = 4000;
    for (int i = 0; i < steps; ++i) {
        const double at = length * ((i + 0.5) / steps - 0.5);
        const double x = reach + at * std::cos(turn * radians);
        const double y = reach + at * std::sin(turn * radians);
        const int u = static_cast<int>(x), v = static_cast<int>(y);
        const double fu = x - u, fv = y - v;
        kernel(v, u) += static_cast<float>((1 - fu) * (1 - fv) / steps);
        kernel(v, u + 1) += static_cast<float>(fu * (1 - fv) / steps);
        kernel(v + 1, u) += static_cast<float>((1 - fu) * fv / steps);
        kernel(v + 1, u + 1) += static_cast<float>(fu * fv / steps);
    }
    cv::Mat_<cv::Vec3f> moved;
    cv::filter2D(light, moved, -1, kernel, {-1, -1}, 0.0, cv::BORDER_REPLICATE);
    return moved;
}

/// More Gaussian blur from left to right: upright bands of one blur each, laid side by side.
cv::Mat_<cv::Vec3f> blurredMoreToTheRight(const cv::Mat_<cv::Vec3f>& sharp, double growth) {
    cv::Mat_<cv::Vec3f> light = sharp.clone();
    constexpr int bands = 16;
    for (int i = 1; i < bands; ++i) {
        cv::Mat soft;
        const double sigma = growth * i / (bands - 1);
        cv::GaussianBlur(sharp, soft, {}, sigma, sigma, cv::BORDER_REPLICATE);
        const cv::Range band(light.cols * i / bands, light.cols * (i + 1) / bands);
        soft.colRange(band).copyTo(light.colRange(band));
    }
    return light;
}

/// The effect of lens and hand on the light.
cv::Mat_<cv::Vec3f> blurred(cv::Mat_<cv::Vec3f> light, const Exposure& e) {
    if (e.motion > 0.0)
        light = smeared(light, e.motion, e.motionTurn);
    if (e.blurGrowth > 0.0)
        light = blurredMoreToTheRight(light, e.blurGrowth);
    if (e.blurAcross > 0.0 && e.blurDown > 0.0) {
        const auto taps = [](double sigma) { return 2 * static_cast<int>(4.0 * sigma + 1.0) + 1; };
        cv::Mat_<cv::Vec3f> soft;
        cv::GaussianBlur(light, soft, {taps(e.blurAcross), taps(e.blurDown)}, e.blurAcross,
                         e.blurDown, cv::BORDER_REPLICATE);
        return soft;
    }
    return light;
}

/// Row by row: whole pictures of numbers would be paged in and out by the kernel.
cv::Mat expose(const cv::Mat_<cv::Vec3f>& light, const Exposure& e) {
    constexpr int steps = 16384;
    std::vector<float> code(steps + 1);
    for (int i = 0; i <= steps; ++i)
        code[static_cast<std::size_t>(i)] = static_cast<float>(encoded(double(i) / steps));
    cv::Mat picture(light.size(), CV_8UC3);
    cv::Mat_<float> noise(1, 3 * light.cols);
    cv::RNG random(e.seed);
    for (int v = 0; v < light.rows; ++v) {
        random.fill(noise, cv::RNG::NORMAL, 0.0, std::max(e.noise, 1e-6));
        const float* from = light.ptr<float>(v);
        const float* off = noise[0];
        uchar* to = picture.ptr<uchar>(v);
        for (int i = 0; i < 3 * light.cols; ++i) {
            const double l = std::clamp(e.gain * double(from[i]), 0.0, 1.0);
            to[i] = cv::saturate_cast<uchar>(
                code[static_cast<std::size_t>(std::lround(l * steps))] + off[i]);
        }
    }
    return picture;
}

} // namespace

cv::Mat exposedCodes(const cv::Mat_<cv::Vec3f>& light, const Exposure& exposure) {
    return expose(blurred(light, exposure), exposure);
}

} // namespace swarfbook::test

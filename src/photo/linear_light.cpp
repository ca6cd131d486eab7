// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "photo/linear_light.h"

#include <cmath>
#include <numbers>

namespace swarfbook {
namespace {

double linearOf(unsigned char code) {
    const double v = code / 255.0;
    return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
}

std::array<float, 256> makeTable() {
    std::array<float, 256> table{};
    for (std::size_t code = 0; code < table.size(); ++code)
        table[code] = static_cast<float>(linearOf(static_cast<unsigned char>(code)));
    return table;
}

/// CIE 15: cube root with its straight part near black.
double labCurve(double ratio) {
    constexpr double epsilon = 216.0 / 24389.0;
    constexpr double kappa = 24389.0 / 27.0;
    return ratio > epsilon ? std::cbrt(ratio) : (kappa * ratio + 16.0) / 116.0;
}

constexpr double degree = std::numbers::pi / 180.0;

double hueDegrees(double a, double b) {
    if (a == 0.0 && b == 0.0)
        return 0.0;
    const double hue = std::atan2(b, a) / degree;
    return hue < 0.0 ? hue + 360.0 : hue;
}

double power7(double value) {
    return std::pow(value, 7.0);
}

constexpr double twentyFiveTo7 = 6103515625.0;

/// A colour with its red-green axis stretched as CIEDE2000 does near grey.
struct Polar {
    double lightness, chroma, hue;
};

Polar polarOf(const cv::Vec3d& lab, double stretch) {
    const double a = lab[1] * (1.0 + stretch);
    return {lab[0], std::hypot(a, lab[2]), hueDegrees(a, lab[2])};
}

double hueStep(const Polar& one, const Polar& two) {
    if (one.chroma * two.chroma == 0.0)
        return 0.0;
    const double step = two.hue - one.hue;
    if (step > 180.0)
        return step - 360.0;
    return step < -180.0 ? step + 360.0 : step;
}

double meanHue(const Polar& one, const Polar& two) {
    const double sum = one.hue + two.hue;
    if (one.chroma * two.chroma == 0.0)
        return sum;
    if (std::abs(one.hue - two.hue) <= 180.0)
        return sum / 2.0;
    return sum < 360.0 ? (sum + 360.0) / 2.0 : (sum - 360.0) / 2.0;
}

} // namespace

const std::array<float, 256>& linearFromSrgb() {
    static const std::array<float, 256> table = makeTable();
    return table;
}

cv::Vec3d labFromSrgb(unsigned char red, unsigned char green, unsigned char blue) {
    static const cv::Matx33d xyzFromRgb(0.4124, 0.3576, 0.1805, 0.2126, 0.7152, 0.0722, 0.0193,
                                        0.1192, 0.9505);
    static const cv::Vec3d white = xyzFromRgb * cv::Vec3d(1.0, 1.0, 1.0);
    const cv::Vec3d xyz = xyzFromRgb * cv::Vec3d(linearOf(red), linearOf(green), linearOf(blue));
    const double fx = labCurve(xyz[0] / white[0]);
    const double fy = labCurve(xyz[1] / white[1]);
    const double fz = labCurve(xyz[2] / white[2]);
    return {116.0 * fy - 16.0, 500.0 * (fx - fy), 200.0 * (fy - fz)};
}

double ciede2000(const cv::Vec3d& labA, const cv::Vec3d& labB) {
    const double meanPlainChroma =
        (std::hypot(labA[1], labA[2]) + std::hypot(labB[1], labB[2])) / 2.0;
    const double c7 = power7(meanPlainChroma);
    const double stretch = 0.5 * (1.0 - std::sqrt(c7 / (c7 + twentyFiveTo7)));
    const Polar one = polarOf(labA, stretch);
    const Polar two = polarOf(labB, stretch);

    const double lightnessStep = two.lightness - one.lightness;
    const double chromaStep = two.chroma - one.chroma;
    const double hueChord =
        2.0 * std::sqrt(one.chroma * two.chroma) * std::sin(hueStep(one, two) / 2.0 * degree);

    const double lightness = (one.lightness + two.lightness) / 2.0 - 50.0;
    const double chroma = (one.chroma + two.chroma) / 2.0;
    const double hue = meanHue(one, two);
    const double t =
        1.0 - 0.17 * std::cos((hue - 30.0) * degree) + 0.24 * std::cos(2.0 * hue * degree) +
        0.32 * std::cos((3.0 * hue + 6.0) * degree) - 0.20 * std::cos((4.0 * hue - 63.0) * degree);
    const double turn = 30.0 * std::exp(-std::pow((hue - 275.0) / 25.0, 2.0));
    const double chroma7 = power7(chroma);
    const double rotation =
        -2.0 * std::sqrt(chroma7 / (chroma7 + twentyFiveTo7)) * std::sin(2.0 * turn * degree);
    const double weightL =
        1.0 + 0.015 * lightness * lightness / std::sqrt(20.0 + lightness * lightness);
    const double weightC = 1.0 + 0.045 * chroma;
    const double weightH = 1.0 + 0.015 * chroma * t;

    const double l = lightnessStep / weightL;
    const double c = chromaStep / weightC;
    const double h = hueChord / weightH;
    return std::sqrt(l * l + c * c + h * h + rotation * c * h);
}

} // namespace swarfbook

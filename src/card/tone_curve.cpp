// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/tone_curve.h"

#include "photo/linear_light.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace swarfbook {
namespace {

/// Light of a step as a share of paper's light, in linear sRGB light.
struct UsualStep {
    double ink;
    double log;    ///< natural logarithm of the share
    double spread; ///< of that logarithm, over printers and phones
};
// Ours: mean and spread over 26 photos of as many printed cards (the photos that the models were
// fitted to, so that a photo brought there looks like what they learnt from).
constexpr std::array<UsualStep, 5> usual{{{0.2, -0.213, 0.022},
                                          {0.4, -0.511, 0.033},
                                          {0.6, -0.976, 0.053},
                                          {0.8, -1.737, 0.09},
                                          {1.0, -3.194, 0.13}}};
constexpr double farOff = 40.0;  // sum of squared spreads: no card of ours comes near half of it
constexpr double brought = 0.33; // the curve leaves at most this share of that sum
constexpr double agrees = 3.5;   // spreads: a step that the curve brings back
constexpr double mostOfOneStep = 60.0; // of the squares: a smudged step
constexpr double gainSpread = 0.05; // of printers' dot gain at half coverage: common practice, no
                                    // source
constexpr double leastContrast = -0.6, mostContrast = 1.0;
constexpr double mostLogPower = 0.35;
constexpr double powerSpread =
    0.08; // of its logarithm: five steps hardly distinguish it from a printer's dot gain; ours

double linearOf(double code) {
    return code <= 0.04045 ? code / 12.92 : std::pow((code + 0.055) / 1.055, 2.4);
}

double codeOf(double linear) {
    return linear <= 0.0031308 ? 12.92 * linear : 1.055 * std::pow(linear, 1.0 / 2.4) - 0.055;
}

/// Inverse of ToneCurve::bent, by halving: the curve rises everywhere.
double unbent(const ToneCurve& curve, double code) {
    double low = 0.0, high = 1.0;
    for (int i = 0; i < 24; ++i) {
        const double middle = 0.5 * (low + high);
        (curve.bent(middle) < code ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

const UsualStep& usualOf(double ink) {
    return *std::min_element(usual.begin(), usual.end(),
                             [&](const UsualStep& a, const UsualStep& b) {
                                 return std::abs(a.ink - ink) < std::abs(b.ink - ink);
                             });
}

/// How far a step's share of paper white is from the usual one after the curve is undone; in
/// logarithms.
double offOf(const GreyStep& step, const ToneCurve& curve) {
    const double share = linearOf(unbent(curve, step.code)) / linearOf(unbent(curve, step.white));
    return std::log(std::max(share, 1e-4)) - usualOf(step.ink).log;
}

/// Change of the logarithm of a step's share for each unit of dot gain at half coverage
/// (Murray-Davies: a share of the area loses its white).
double perGain(const UsualStep& step) {
    const double area = 4.0 * step.ink * (1.0 - step.ink);
    return -area * (1.0 - std::exp(usual.back().log)) / std::exp(step.log);
}

/// Misfit of the steps to a curve and a printer: sum of squared spreads.
struct Explained {
    double squares = 0.0;
    int agreeing = 0; ///< steps that come back
};

Explained explainedBy(const std::vector<GreyStep>& steps, const ToneCurve& curve) {
    Explained best{std::numeric_limits<double>::infinity(), 0};
    std::vector<double> off;
    for (const GreyStep& step : steps)
        off.push_back(offOf(step, curve));
    for (double gain = -3.0 * gainSpread; gain <= 3.01 * gainSpread; gain += 0.5 * gainSpread) {
        Explained now{
            std::pow(gain / gainSpread, 2) + std::pow(std::log(curve.power) / powerSpread, 2), 0};
        for (std::size_t i = 0; i < steps.size(); ++i) {
            const UsualStep& step = usualOf(steps[i].ink);
            const double spreads = (off[i] - gain * perGain(step)) / step.spread;
            now.squares += std::min(spreads * spreads, mostOfOneStep);
            now.agreeing += std::abs(spreads) < agrees ? 1 : 0;
        }
        if (now.squares < best.squares)
            best = now;
    }
    return best;
}

struct CurveGrid {
    ToneCurve middle;
    double contrastStep = 0.0, logPowerStep = 0.0;
    int reach = 0; ///< steps to either side
};

/// The best of a grid of curves.
ToneCurve bestOf(const CurveGrid& grid, const std::vector<GreyStep>& steps) {
    const auto& [middle, contrastStep, logPowerStep, reach] = grid;
    ToneCurve best = middle;
    double least = explainedBy(steps, middle).squares;
    for (int i = -reach; i <= reach; ++i)
        for (int j = -reach; j <= reach; ++j) {
            const ToneCurve curve{
                std::clamp(middle.contrast + i * contrastStep, leastContrast, mostContrast),
                std::exp(std::clamp(std::log(middle.power) + j * logPowerStep, -mostLogPower,
                                    mostLogPower))};
            if (const double sum = explainedBy(steps, curve).squares; sum < least) {
                least = sum;
                best = curve;
            }
        }
    return best;
}

/// Mean green light of a square about a place, `reach` mm to every side; nullopt out of the
/// picture.
std::optional<double> lightAround(const cv::Mat& bgr, const CardSighting& card, PointOnCard at,
                                  double reach) {
    const PointInPhoto middle = card.mapping.photoFromCard(at);
    const int half = std::max(1, static_cast<int>(reach * card.scale.value()));
    const cv::Rect place(static_cast<int>(std::lround(middle.u)) - half,
                         static_cast<int>(std::lround(middle.v)) - half, 2 * half + 1,
                         2 * half + 1);
    if ((place & cv::Rect({0, 0}, bgr.size())) != place)
        return std::nullopt;
    const auto& linear = linearFromSrgb();
    double sum = 0.0;
    for (int v = place.y; v < place.br().y; ++v)
        for (int u = place.x; u < place.br().x; ++u)
            sum += linear[bgr.at<cv::Vec3b>(v, u)[1]];
    return sum / place.area();
}

/// Light of the paper to the left and right of a patch (letters and lines are above and below);
/// nullopt if it is uneven because a shadow's edge or a smudge lies there.
std::optional<double> whiteBeside(const cv::Mat& bgr, const CardSighting& card, PointOnCard at,
                                  double away) {
    constexpr double even =
        1.15; // of the darker side: paper's grain and a lamp's falloff stay below
    const auto left = lightAround(bgr, card, {at.x - away, at.y}, 0.35);
    const auto right = lightAround(bgr, card, {at.x + away, at.y}, 0.35);
    if (!left || !right || std::max(*left, *right) > even * std::min(*left, *right))
        return std::nullopt;
    return 0.5 * (*left + *right);
}

} // namespace

double ToneCurve::bent(double code) const {
    const double c = std::pow(code, power);
    return (1.0 - contrast) * c + contrast * c * c * (3.0 - 2.0 * c);
}

cv::Mat ToneCurve::straightened() const {
    cv::Mat table(1, 256, CV_8U);
    for (int code = 0; code < 256; ++code)
        table.at<uchar>(code) = cv::saturate_cast<uchar>(255.0 * unbent(*this, code / 255.0));
    table.at<uchar>(0) = 0;
    table.at<uchar>(255) = 255;
    return table;
}

std::vector<GreyStep> readGreySteps(const cv::Mat& bgr, const CardSighting& card) {
    const double side = card.layout.patchSize;
    std::vector<GreyStep> steps;
    for (const GreyPatch& patch : card.layout.patches) {
        if (patch.ink <= 0.0)
            continue;
        const auto light = lightAround(bgr, card, patch.centre, 0.28 * side);
        const auto white = whiteBeside(bgr, card, patch.centre, side / 2.0 + 1.6);
        if (!light || !white)
            continue;
        const GreyStep step{patch.ink, codeOf(*light), codeOf(*white)};
        if (step.code > 1.0 / 255.0 && step.white < 0.985)
            steps.push_back(step);
    }
    return steps;
}

std::optional<ToneCurve> toneCurveOf(const std::vector<GreyStep>& steps) {
    if (steps.size() < 4)
        return std::nullopt;
    const double before = explainedBy(steps, {}).squares;
    if (before < farOff)
        return std::nullopt;
    const ToneCurve rough = bestOf({{0.2, 1.0}, 0.1, 0.05, 8}, steps);
    const ToneCurve curve = bestOf({rough, 0.01, 0.005, 10}, steps);
    const Explained after = explainedBy(steps, curve);
    if (after.squares > brought * before || after.agreeing + 1 < static_cast<int>(steps.size()))
        return std::nullopt;
    return curve;
}

} // namespace swarfbook

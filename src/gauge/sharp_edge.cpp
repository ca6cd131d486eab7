// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "gauge/sharp_edge.h"

#include <algorithm>
#include <cmath>

namespace swarfbook {
namespace {

/// Rise of light over one edge width about each sample; 0 if that reaches beyond the profile.
std::vector<double> gains(const EdgeProfile& profile, std::size_t half) {
    const auto& light = profile.light;
    std::vector<double> gain(light.size(), 0.0);
    for (std::size_t i = half; i + half < light.size(); ++i)
        gain[i] = light[i + half] - light[i - half];
    return gain;
}

double meanOf(const std::vector<double>& light, std::size_t from, std::size_t to) {
    double sum = 0.0;
    for (std::size_t i = from; i < to; ++i)
        sum += light[i];
    return sum / static_cast<double>(to - from);
}

double strongestOf(const std::vector<double>& gain) {
    double strongest = 0.0;
    for (const double g : gain)
        strongest = std::max(strongest, std::abs(g));
    return strongest;
}

/// Samples where the gain is a maximum of its neighbourhood and at least `least`, from inside out.
std::vector<std::size_t> peaksOf(const std::vector<double>& gain, std::size_t half, double least) {
    std::vector<std::size_t> peaks;
    if (!(least > 0.0))
        return peaks;
    for (std::size_t i = half; i + half < gain.size(); ++i) {
        const double here = std::abs(gain[i]);
        const auto from = gain.begin() + static_cast<std::ptrdiff_t>(i - half);
        const auto to = gain.begin() + static_cast<std::ptrdiff_t>(i + half + 1);
        const bool highest =
            std::all_of(from, to, [&](double other) { return std::abs(other) <= here; });
        if (highest && here >= least && (peaks.empty() || i > peaks.back() + half))
            peaks.push_back(i);
    }
    return peaks;
}

/// Whether the next step inward has the same sign and nearly a third of the outermost one's height.
bool sameStepInside(const std::vector<double>& gain, std::size_t half, std::size_t outermost) {
    constexpr double worthIt = 0.3;
    std::optional<std::size_t> next;
    for (const std::size_t peak : peaksOf(gain, half, worthIt * std::abs(gain[outermost])))
        if (peak + half < outermost)
            next = peak;
    return next && (gain[*next] > 0.0) == (gain[outermost] > 0.0);
}

} // namespace

std::optional<SharpEdge> outermostSharpEdge(const EdgeProfile& profile) {
    const auto samples = [&](double edgeWidths) {
        return static_cast<std::size_t>(
            std::max(1.0, std::round(edgeWidths * profile.edgeWidth / profile.step)));
    };
    const std::size_t half = samples(0.5);
    const auto gain = gains(profile, half);
    const auto peaks = peaksOf(gain, half, 0.5 * strongestOf(gain));
    if (peaks.empty())
        return std::nullopt;
    const std::size_t peak = peaks.back();
    const std::size_t within = samples(0.8);
    const std::size_t beyond = samples(1.5);
    if (peak < beyond || peak + beyond >= profile.light.size())
        return std::nullopt;
    const double inside = meanOf(profile.light, peak - beyond, peak - within + 1);
    const double outside = meanOf(profile.light, peak + within, peak + beyond + 1);
    const double level = (inside + outside) / 2.0;
    std::optional<SharpEdge> best;
    for (std::size_t i = peak - within; i < peak + within; ++i) {
        const double a = profile.light[i] - level;
        const double b = profile.light[i + 1] - level;
        if ((a <= 0.0) == (b <= 0.0))
            continue;
        const double at = (static_cast<double>(i) + a / (a - b)) * profile.step;
        const double middle = static_cast<double>(peak) * profile.step;
        if (!best || std::abs(at - middle) < std::abs(best->at - middle))
            best = SharpEdge{at};
    }
    if (best)
        best->secondStep = sameStepInside(gain, half, peak);
    return best;
}

} // namespace swarfbook

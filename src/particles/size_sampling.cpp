// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/size_sampling.h"

#include "base/median.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <vector>

namespace swarfbook {
namespace {

constexpr double u95 = 1.959964; // of the standard normal distribution

/// alpha^2 sigma^2 (2 c^2 sigma^2 + 1): the relative variance of one piece's part in the mean.
double relativeVariance(double spread, const MeanSought& mean) {
    if (!(spread >= 1.0))
        throw std::logic_error("a geometric standard deviation is 1 or more");
    const double sigma2 = std::pow(std::log(spread), 2);
    const double c = mean.beta + mean.alpha / 2.0;
    return mean.alpha * mean.alpha * sigma2 * (2.0 * c * c * sigma2 + 1.0);
}

double geometricSpread(const std::vector<double>& sizes) {
    double sum = 0.0, squares = 0.0;
    for (const double size : sizes)
        sum += std::log(size);
    const double mean = sum / static_cast<double>(sizes.size());
    for (const double size : sizes)
        squares += std::pow(std::log(size) - mean, 2);
    return std::exp(std::sqrt(squares / static_cast<double>(sizes.size() - 1)));
}

/// How many of the smallest pieces lie below the 95 % interval of the median: the largest r with
/// P(fewer than r of n fair coins) <= 2.5 %; 0 if even the smallest piece is no safe limit.
std::size_t ranksBelow(std::size_t n) {
    const double logHalf = -std::log(2.0) * static_cast<double>(n);
    double cumulated = 0.0;
    for (std::size_t k = 0; k < n; ++k) {
        const auto [m, j] = std::pair(static_cast<double>(n), static_cast<double>(k));
        cumulated += std::exp(logHalf + std::lgamma(m + 1.0) - std::lgamma(j + 1.0) -
                              std::lgamma(m - j + 1.0));
        if (cumulated > 0.025)
            return k;
    }
    return 0;
}

} // namespace

double piecesNeeded(double spread, double off, const MeanSought& mean) {
    if (!(off > 0.0))
        throw std::logic_error("a mean cannot be wanted exactly");
    return std::pow(u95 / off, 2) * relativeVariance(spread, mean);
}

double offOfMean(double spread, int pieces, const MeanSought& mean) {
    if (pieces < 1)
        throw std::logic_error("no pieces have no mean");
    return u95 * std::sqrt(relativeVariance(spread, mean) / pieces);
}

std::optional<SizeSampling> sizeSampling(std::span<const Particle> particles, bool onWhiteCard) {
    std::vector<double> sizes;
    for (const Particle& p : particles)
        if ((onWhiteCard || !p.atEdge) && p.maxFeret.value.value() > 0.0)
            sizes.push_back(p.maxFeret.value.value());
    if (sizes.size() < 3)
        return std::nullopt;
    std::sort(sizes.begin(), sizes.end());
    SizeSampling sampling;
    sampling.pieces = static_cast<int>(sizes.size());
    sampling.median = Millimetres(medianOf(sizes));
    if (const std::size_t below = ranksBelow(sizes.size()); below > 0) {
        sampling.medianLow = Millimetres(sizes[below - 1]);
        sampling.medianHigh = Millimetres(sizes[sizes.size() - below]);
    }
    sampling.spread = geometricSpread(sizes);
    sampling.meanOff95 = offOfMean(sampling.spread, sampling.pieces, {1, 0});
    sampling.volumeMeanOff95 = offOfMean(sampling.spread, sampling.pieces, {3, 0});
    sampling.neededFor5Percent =
        static_cast<int>(std::ceil(piecesNeeded(sampling.spread, 0.05, {1, 0})));
    return sampling;
}

} // namespace swarfbook

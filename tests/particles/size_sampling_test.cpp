// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/size_sampling.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <stdexcept>

using namespace swarfbook;

namespace {

std::vector<Particle> piecesOf(const std::vector<double>& sizes) {
    std::vector<Particle> pieces;
    for (const double size : sizes) {
        pieces.emplace_back();
        pieces.back().maxFeret.value = Millimetres(size);
    }
    return pieces;
}

} // namespace

// Source: ISO 13322-1 (2004), abstract and annex: with a geometric standard deviation of 1.6, over
// 6 000 particles for a repeatable volume-mean diameter and at least 61 000 for percentiles; the
// other figures from the annex's formula (Masuda and Iinoya), error 5 %, 95 %.
TEST_CASE("the number of particles is the standard's", "[sampling]") {
    CHECK(piecesNeeded(1.6, 0.05, {3, 0}) == Approx(6092).margin(1));
    CHECK(piecesNeeded(1.6, 0.05, {6, 0}) == Approx(60811).margin(3));
    CHECK(piecesNeeded(1.6, 0.05, {1, 0}) == Approx(377).margin(1));
    CHECK(piecesNeeded(1.6, 0.05, {2, 0}) == Approx(1958).margin(1));
    CHECK(piecesNeeded(1.1, 0.05, {1, 0}) == Approx(14).margin(1));
    CHECK(piecesNeeded(1.3, 0.05, {3, 0}) == Approx(1247).margin(1));
    CHECK(piecesNeeded(1.5, 0.05, {6, 0}) == Approx(36007).margin(2));
    CHECK(offOfMean(1.6, 6092, {3, 0}) == Approx(0.05).epsilon(1e-3));
    CHECK_THROWS_AS(piecesNeeded(0.9, 0.05, {}), std::logic_error);
    CHECK_THROWS_AS(piecesNeeded(1.6, 0.0, {}), std::logic_error);
    CHECK_THROWS_AS(offOfMean(1.6, 0, {}), std::logic_error);
}

// Source: order statistics of the sign test (Conover, Practical nonparametric statistics, table of
// the binomial distribution): for n = 10 the 95 % interval of the median reaches from the 2nd to
// the 9th value, for n = 20 from the 6th to the 15th; below 6 values there is none.
TEST_CASE("the median's interval needs no distribution", "[sampling]") {
    std::vector<double> sizes;
    for (int i = 1; i <= 10; ++i)
        sizes.push_back(i);
    const auto ten = sizeSampling(piecesOf(sizes), true);
    REQUIRE(ten);
    CHECK(ten->median.value() == 5.5);
    CHECK(ten->medianLow.value() == 2.0);
    CHECK(ten->medianHigh.value() == 9.0);
    for (int i = 11; i <= 20; ++i)
        sizes.push_back(i);
    const auto twenty = sizeSampling(piecesOf(sizes), true);
    CHECK(twenty->medianLow.value() == 6.0);
    CHECK(twenty->medianHigh.value() == 15.0);
    const auto five = sizeSampling(piecesOf({1, 2, 3, 4, 5}), true);
    REQUIRE(five);
    CHECK(five->medianLow.value() == 0.0);
    CHECK(five->medianHigh.value() == 0.0);
    CHECK_FALSE(sizeSampling(piecesOf({1, 2}), true));
}

TEST_CASE("pieces at a frame's edge are not part of the distribution", "[sampling]") {
    auto pieces = piecesOf({1, 2, 3, 4, 50});
    pieces.back().atEdge = true;
    CHECK(sizeSampling(pieces, false)->pieces == 4);
    CHECK(sizeSampling(pieces, true)->pieces == 5);
}

// Outside truth: log-normal sizes drawn with a known spread; the mean of each sample against the
// closed form exp(mu + sigma^2 / 2).
TEST_CASE("the mean lies within what is stated in 95 of 100 samples", "[sampling]") {
    std::mt19937 random(5);
    const double sigma = std::log(1.6);
    std::lognormal_distribution<double> size(std::log(0.3), sigma);
    const double truth = 0.3 * std::exp(sigma * sigma / 2.0);
    int inside = 0;
    constexpr int samples = 2000;
    for (int i = 0; i < samples; ++i) {
        std::vector<double> sizes;
        double sum = 0.0;
        for (int k = 0; k < 150; ++k) {
            sizes.push_back(size(random));
            sum += sizes.back();
        }
        const auto sampling = sizeSampling(piecesOf(sizes), true);
        inside += std::abs(sum / 150 / truth - 1.0) <= sampling->meanOff95 ? 1 : 0;
    }
    // Binomial: 0.95 +- 3 standard errors of 0.5 %.
    CHECK(inside / double(samples) > 0.935);
    CHECK(inside / double(samples) < 0.975);
}

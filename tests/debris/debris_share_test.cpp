// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/debris_share.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>

using namespace swarfbook;

namespace {

constexpr double learnt = 0.3;

/// Two classes whose scores are normal, two apart, both of unit spread: the posterior has a closed
/// form at every share (Saerens, Latinne and Decaestecker 2002 test on such a case; the figures
/// here are our own).
struct DrawnScores {
    std::vector<double> atLearnt, atTrue;
};

double posterior(double score, double share) {
    const double ratio = std::exp(2.0 * score - 2.0); // N(2, 1) over N(0, 1)
    return share * ratio / (share * ratio + 1.0 - share);
}

DrawnScores drawScores(int count, double share, unsigned seed) {
    std::mt19937 random(seed);
    std::normal_distribution<double> spread;
    DrawnScores drawn;
    for (int i = 0; i < count; ++i) {
        const double score = spread(random) + (i < share * count ? 2.0 : 0.0);
        drawn.atLearnt.push_back(posterior(score, learnt));
        drawn.atTrue.push_back(posterior(score, share));
    }
    return drawn;
}

double sumOf(const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0);
}

} // namespace

TEST_CASE("probabilities follow the share of debris in the photo") {
    const double share = GENERATE(0.02, 0.05, 0.15);
    const DrawnScores drawn = drawScores(4000, share, 7);
    const auto own = atOwnShare(drawn.atLearnt, learnt);
    // Expectation maximisation finds the share: closed form of two normal classes.
    CHECK(sumOf(own) / 4000.0 == Approx(share).margin(0.015));
    double apart = 0.0, before = 0.0;
    for (std::size_t i = 0; i < own.size(); ++i) {
        apart += std::abs(own[i] - drawn.atTrue[i]);
        before += std::abs(drawn.atLearnt[i] - drawn.atTrue[i]);
    }
    CHECK(apart < 0.35 * before);
}

TEST_CASE("a surface without debris loses its doubtful candidates and a sure piece stays") {
    std::vector<double> probabilities(400, 0.05);
    std::fill_n(probabilities.begin(), 30, 0.5);
    probabilities.push_back(0.999);
    const auto own = atOwnShare(probabilities, learnt);
    CHECK(own.front() < 0.2);
    CHECK(own.back() > 0.9);
}

TEST_CASE("a photo full of debris keeps the probabilities it was given") {
    const std::vector<double> probabilities{0.0, 0.2, 0.5, 0.9, 0.95, 0.99, 0.99, 0.999, 1.0};
    const auto own = atOwnShare(probabilities, learnt);
    REQUIRE(own.size() == probabilities.size());
    for (std::size_t i = 0; i < own.size(); ++i)
        CHECK(own[i] == Approx(probabilities[i]).margin(2e-6));
}

TEST_CASE("a few candidates say little of the share, none says nothing") {
    const auto own = atOwnShare({0.5, 0.02}, learnt);
    CHECK(own.front() == Approx(0.5).margin(0.03));
    CHECK(atOwnShare({}, learnt).empty());
}

TEST_CASE("what was more probable stays more probable") {
    const DrawnScores drawn = drawScores(300, 0.05, 3);
    const auto own = atOwnShare(drawn.atLearnt, learnt);
    for (std::size_t i = 1; i < own.size(); ++i)
        CHECK((own[i] > own[i - 1]) == (drawn.atLearnt[i] > drawn.atLearnt[i - 1]));
}

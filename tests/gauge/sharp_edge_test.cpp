// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "gauge/sharp_edge.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace swarfbook;

namespace {

constexpr double sigma = 1.0;
constexpr double width = 2.5631 * sigma; // 10-90 % of a Gaussian edge: normal quantile of 0.9

struct Step {
    double at, rise, sigma;
};

EdgeProfile profileOf(double start, const std::vector<Step>& steps) {
    EdgeProfile profile;
    profile.step = 0.25;
    profile.edgeWidth = width;
    for (int i = 0; i <= 120; ++i) {
        double light = start;
        for (const Step& s : steps)
            light += s.rise * 0.5 * std::erfc((s.at - 0.25 * i) / (s.sigma * std::sqrt(2.0)));
        profile.light.push_back(light);
    }
    return profile;
}

} // namespace

// Outside truth: the place of a Gaussian edge is its middle, by symmetry.

TEST_CASE("a sharp edge is found where it is half way") {
    for (const double at : {12.0, 15.13, 18.6}) {
        const auto edge = outermostSharpEdge(profileOf(0.1, {{at, 0.5, sigma}}));
        REQUIRE(edge);
        CHECK(edge->at == Approx(at).margin(0.01));
        CHECK_FALSE(edge->secondStep);
    }
}

TEST_CASE("a bright streak inside is not the edge") {
    const auto edge = outermostSharpEdge(profileOf(0.6, {{6.0, -0.5, sigma}, {16.0, 0.5, sigma}}));
    REQUIRE(edge);
    CHECK(edge->at == Approx(16.0).margin(0.02));
    CHECK_FALSE(edge->secondStep);
}

TEST_CASE("a soft shadow outside moves the edge by a small part of its width") {
    // Half as deep as the step, 10 times as soft.
    const auto edge =
        outermostSharpEdge(profileOf(0.1, {{14.0, 0.35, sigma}, {16.0, 0.15, 10.0 * sigma}}));
    REQUIRE(edge);
    CHECK(edge->at == Approx(14.0).margin(0.05 * width));
}

TEST_CASE("a hard shadow's border is found by a second step of the same sign") {
    const auto edge = outermostSharpEdge(profileOf(0.1, {{10.0, 0.25, sigma}, {17.0, 0.3, sigma}}));
    REQUIRE(edge);
    CHECK(edge->secondStep);
}

TEST_CASE("nothing is found without a step or if the levels cannot be read") {
    CHECK_FALSE(outermostSharpEdge(profileOf(0.4, {})));
    CHECK_FALSE(outermostSharpEdge(profileOf(0.1, {{29.0, 0.5, sigma}})));
    CHECK_FALSE(outermostSharpEdge(EdgeProfile{}));
}

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/cast_shadows.h"
#include "photo/linear_light.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

using namespace swarfbook;

namespace {

constexpr double edge = 2.0; // px
constexpr int surfaceCode = 180;

/// An outline of semi-axes a and b, its long axis turned by so many degrees.
Candidate ellipse(cv::Point2d centre, double a, double b, double degrees, double certainty = 0.9) {
    Candidate c;
    const double turn = degrees / 180.0 * std::numbers::pi;
    for (int i = 0; i < 64; ++i) {
        const double t = 2 * std::numbers::pi * i / 64;
        const double x = a * std::cos(t), y = b * std::sin(t);
        c.outline.push_back(centre + cv::Point2d(x * std::cos(turn) - y * std::sin(turn),
                                                 x * std::sin(turn) + y * std::cos(turn)));
    }
    const int reach = static_cast<int>(std::ceil(std::max(a, b))) + 5;
    c.box = cv::Rect(static_cast<int>(centre.x) - reach, static_cast<int>(centre.y) - reach,
                     2 * reach + 1, 2 * reach + 1);
    c.mask = cv::Mat::zeros(c.box.size(), CV_8U);
    std::vector<cv::Point> polygon;
    for (const auto& p : c.outline)
        polygon.emplace_back(cv::Point2d(p.x - c.box.x, p.y - c.box.y));
    cv::fillPoly(c.mask, std::vector<std::vector<cv::Point>>{polygon}, 255);
    c.certainty = certainty;
    return c;
}

ContrastField plainField(cv::Size size) {
    ContrastField field;
    field.background = cv::Mat(size, CV_8UC3, cv::Scalar::all(surfaceCode));
    field.smooth = field.background.clone();
    field.contrast = cv::Mat::zeros(size, CV_32F);
    field.noise = cv::Mat::ones(1, 1, CV_32F);
    field.tile = std::max(size.width, size.height);
    return field;
}

/// Ten by six pieces, 60 px apart.
template <typename Make> std::vector<Candidate> strewn(Make make) {
    std::vector<Candidate> all;
    for (int row = 0; row < 6; ++row)
        for (int column = 0; column < 10; ++column)
            all.push_back(make(cv::Point2d(40 + 60 * column, 40 + 60 * row)));
    return all;
}

double lengthOf(cv::Point2d v) {
    return std::hypot(v.x, v.y);
}

const cv::Size room{640, 400};

} // namespace

// Second moments of an ellipse's points: (a^2 - b^2) / (a^2 + b^2); closed form.
TEST_CASE("An outline's elongation has its axis and strength", "[debris]") {
    const cv::Point2d of = elongationOf(ellipse({50, 50}, 12, 6, 30).outline);
    CHECK(lengthOf(of) == Approx((144.0 - 36.0) / (144.0 + 36.0)).margin(1e-6));
    CHECK(std::atan2(of.y, of.x) == Approx(60.0 / 180.0 * std::numbers::pi).margin(1e-6));
    CHECK(lengthOf(elongationOf(ellipse({50, 50}, 8, 8, 0).outline)) == Approx(0.0).margin(1e-9));
}

TEST_CASE("Outlines drawn out one way tell the lamp's direction", "[debris]") {
    const auto all = strewn([](cv::Point2d at) { return ellipse(at, 12, 8, 30); });
    const CastShadows cast = castShadowsOf(plainField(room), all, edge);
    const double own = (144.0 - 64.0) / (144.0 + 64.0);
    CHECK(lengthOf(cast.axis) == Approx(own * (1 - 1 / std::sqrt(60.0))).margin(1e-6));
    CHECK(std::atan2(cast.axis.y, cast.axis.x) ==
          Approx(60.0 / 180.0 * std::numbers::pi).margin(1e-6));
    CHECK(cast.side == Approx(0.0).margin(1e-9));
}

TEST_CASE("Long pieces that lie every way tell of no lamp", "[debris]") {
    std::mt19937 random(3);
    std::uniform_real_distribution<double> way(0.0, 180.0);
    double worst = 0.0;
    for (int round = 0; round < 20; ++round) {
        const auto all = strewn([&](cv::Point2d at) { return ellipse(at, 14, 5, way(random)); });
        worst = std::max(worst, lengthOf(castShadowsOf(plainField(room), all, edge).axis));
    }
    CHECK(worst < 0.15); // of an own elongation of 0.77
}

// Half of the ring 0.7 of the surface's light: each of four sectors 0.3 darker. Mean of the ring
// 0.15; pull 0.3 / 8 (2 cos 22.5 + 2 cos 67.5) = 0.098.
TEST_CASE("A dark side beside all pieces is told from darkness all round", "[debris]") {
    ContrastField field = plainField(room);
    const auto& linear = linearFromSrgb();
    const double lit = double(linear[surfaceCode]);
    int shaded = surfaceCode;
    while (double(linear[static_cast<std::size_t>(shaded)]) > 0.7 * lit)
        --shaded;
    const double share = 1.0 - double(linear[static_cast<std::size_t>(shaded)]) / lit;
    const auto all = strewn([](cv::Point2d at) { return ellipse(at, 10, 10, 0); });
    for (const Candidate& c : all)
        for (int y = c.box.y; y < c.box.y + c.box.height; ++y)
            for (int x = c.box.x + c.box.width / 2 + 1; x < c.box.x + c.box.width; ++x)
                field.smooth.at<cv::Vec3b>(y, x) = cv::Vec3b::all(static_cast<uchar>(shaded));
    const CastShadows oneSided = castShadowsOf(field, all, edge);
    CHECK(oneSided.ring == Approx(share / 2).margin(0.02));
    CHECK(oneSided.side == Approx(share / 8 * 2.613).margin(0.01));
    CHECK(oneSided.pull.x == Approx(oneSided.side).margin(0.01)); // it is dark to the right
    CHECK(oneSided.pull.y == Approx(0.0).margin(0.01));
    field.smooth.setTo(cv::Scalar::all(shaded));
    const CastShadows allRound = castShadowsOf(field, all, edge);
    CHECK(allRound.ring == Approx(share).margin(0.01));
    CHECK(allRound.side == Approx(0.0).margin(0.01));
}

TEST_CASE("What the model is not sure of, and nothing at all, tells of no light", "[debris]") {
    const auto unsure = strewn([](cv::Point2d at) { return ellipse(at, 12, 6, 30, 0.4); });
    for (const auto& all : {unsure, std::vector<Candidate>{}}) {
        const CastShadows cast = castShadowsOf(plainField(room), all, edge);
        CHECK(lengthOf(cast.axis) == 0.0);
        CHECK(cast.side == 0.0);
        CHECK(cast.ring == 0.0);
    }
}

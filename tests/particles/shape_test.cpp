// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/shape.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <random>

using namespace swarfbook;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using std::numbers::pi;

namespace {

using Outline = std::vector<cv::Point2d>;

Outline turned(const Outline& outline, double angle) {
    Outline result;
    for (const cv::Point2d& p : outline)
        result.emplace_back(37.0 + p.x * std::cos(angle) - p.y * std::sin(angle),
                            21.0 + p.x * std::sin(angle) + p.y * std::cos(angle));
    return result;
}

Outline ellipse(double a, double b) {
    Outline outline;
    for (int i = 0; i < 7200; ++i)
        outline.emplace_back(a * std::cos(2 * pi * i / 7200), b * std::sin(2 * pi * i / 7200));
    return outline;
}

Outline regularPolygon(int corners) {
    const double radius = 0.5 / std::sin(pi / corners);
    Outline outline;
    for (int i = 0; i < corners; ++i)
        outline.emplace_back(radius * std::cos(2 * pi * i / corners),
                             radius * std::sin(2 * pi * i / corners));
    return outline;
}

/// A thread of this width along a three-quarter circle; `ragged` moves every point at random.
Outline bentThread(double middleRadius, double width, double ragged) {
    std::mt19937 random(3);
    std::normal_distribution<double> shake(0.0, ragged);
    Outline outline;
    const int steps = 200;
    for (int side = 0; side < 2; ++side)
        for (int i = 0; i <= steps; ++i) {
            const int step = side == 0 ? i : steps - i;
            const double angle = 1.5 * pi * step / steps;
            const double radius = middleRadius + (side == 0 ? 0.5 : -0.5) * width + shake(random);
            outline.emplace_back(radius * std::cos(angle), radius * std::sin(angle));
        }
    return outline;
}

} // namespace

// Source: closed forms of regular polygons with side 1 (textbook geometry), as tabulated with
// numpy: A, Fmax, Fmin, area-equivalent diameter, form factor, circularity.
TEST_CASE("regular polygons have their closed-form sizes and descriptors") {
    struct Row {
        int corners;
        double area, maxFeret, minFeret, diameter, formFactor, circularity;
    };
    const Row rows[] = {{3, 0.433013, 1.000000, 0.866025, 0.742515, 0.604600, 0.777560},
                        {4, 1.000000, 1.414214, 1.000000, 1.128379, 0.785398, 0.886227},
                        {5, 1.720477, 1.618034, 1.538842, 1.480061, 0.864806, 0.929950},
                        {6, 2.598076, 2.000000, 1.732051, 1.818783, 0.906900, 0.952313},
                        {7, 3.633912, 2.246980, 2.190643, 2.151009, 0.931941, 0.965371},
                        {8, 4.828427, 2.613126, 2.414214, 2.479465, 0.948059, 0.973683},
                        {10, 7.694209, 3.236068, 3.077684, 3.129947, 0.966883, 0.983302},
                        {12, 11.196152, 3.863703, 3.732051, 3.775630, 0.977049, 0.988458}};
    for (const Row& row : rows)
        for (const double angle : {0.0, 0.3, 1.1}) {
            const Shape shape = measureShape(turned(regularPolygon(row.corners), angle));
            CHECK_THAT(shape.area, WithinAbs(row.area, 1e-6));
            CHECK_THAT(shape.maxFeret, WithinAbs(row.maxFeret, 1e-6));
            CHECK_THAT(shape.minFeret, WithinAbs(row.minFeret, 1e-6));
            CHECK_THAT(shape.areaEquivalentDiameter(), WithinAbs(row.diameter, 1e-6));
            CHECK_THAT(shape.formFactor(), WithinAbs(row.formFactor, 1e-6));
            CHECK_THAT(shape.circularity(), WithinAbs(row.circularity, 1e-6));
            CHECK_THAT(shape.centroid.x, WithinAbs(37.0, 1e-9));
            CHECK_THAT(shape.centroid.y, WithinAbs(21.0, 1e-9));
            CHECK_THAT(shape.solidity(), WithinAbs(1.0, 1e-9));
            CHECK(shape.length == shape.maxFeret);
        }
}

// Source: closed forms; perimeters by the complete elliptic integral (scipy). The polygon of 7200
// sides is short of the ellipse by less than 1e-6 of itself.
TEST_CASE("ellipses have their closed-form sizes") {
    struct Row {
        double a, b, area, perimeter, formFactor;
    };
    const Row rows[] = {{10, 5, 157.079633, 48.442241, 0.841165},
                        {20, 5, 314.159265, 85.784218, 0.536469},
                        {30, 10, 942.477796, 133.648932, 0.663056},
                        {50, 5, 785.398163, 203.198709, 0.239033}};
    for (const Row& row : rows) {
        const Shape shape = measureShape(turned(ellipse(row.a, row.b), 0.7));
        CHECK_THAT(shape.area, WithinRel(row.area, 2e-6));
        CHECK_THAT(shape.perimeter, WithinRel(row.perimeter, 2e-6));
        CHECK_THAT(shape.formFactor(), WithinAbs(row.formFactor, 2e-6));
        CHECK_THAT(shape.maxFeret, WithinRel(2 * row.a, 2e-6));
        CHECK_THAT(shape.minFeret, WithinRel(2 * row.b, 2e-6));
        const double feretAlongX =
            2 * std::hypot(row.a * std::cos(0.7), row.b * std::sin(0.7)); // closed form
        CHECK_THAT(shape.width, WithinRel(feretAlongX, 2e-6));
    }
}

// Source: ISO 9276-6 formulas (from memory) worked with numpy for a rectangle of 60 x 20.
TEST_CASE("a rectangle has the ISO 9276-6 descriptors of its closed form") {
    const Shape shape = measureShape(turned({{0, 0}, {60, 0}, {60, 20}, {0, 20}}, 0.4));
    CHECK_THAT(shape.area, WithinAbs(1200, 1e-6));
    CHECK_THAT(shape.perimeter, WithinAbs(160, 1e-6));
    CHECK_THAT(shape.maxFeret, WithinAbs(63.245553, 1e-6));
    CHECK_THAT(shape.minFeret, WithinAbs(20, 1e-6));
    CHECK_THAT(shape.areaEquivalentDiameter(), WithinAbs(39.088201, 1e-6));
    CHECK_THAT(shape.formFactor(), WithinAbs(0.589049, 1e-6));
    CHECK_THAT(shape.circularity(), WithinAbs(0.767495, 1e-6));
    CHECK_THAT(shape.compactness(), WithinAbs(0.618039, 1e-6));
    CHECK_THAT(shape.aspectRatio(), WithinAbs(20 / 63.245553, 1e-6));
    CHECK_THAT(shape.convexity(), WithinAbs(1.0, 1e-9));
    const auto geodesic = geodesicSize(shape.area, shape.perimeter);
    REQUIRE(geodesic);
    CHECK_THAT(geodesic->length, WithinAbs(60, 1e-6));
    CHECK_THAT(geodesic->thickness, WithinAbs(20, 1e-6));
}

// Source: closed form of a capsule, total length 60, width 10, worked with numpy.
TEST_CASE("a capsule has its closed-form sizes") {
    Outline capsule;
    for (int i = 0; i <= 3600; ++i)
        capsule.emplace_back(25 + 5 * std::sin(pi * i / 3600), -5 * std::cos(pi * i / 3600));
    for (int i = 0; i <= 3600; ++i)
        capsule.emplace_back(-25 - 5 * std::sin(pi * i / 3600), 5 * std::cos(pi * i / 3600));
    const Shape shape = measureShape(turned(capsule, 1.0));
    CHECK_THAT(shape.area, WithinRel(578.539816, 1e-6));
    CHECK_THAT(shape.perimeter, WithinRel(131.415927, 1e-6));
    CHECK_THAT(shape.formFactor(), WithinAbs(0.420966, 1e-6));
    CHECK_THAT(shape.maxFeret, WithinAbs(60, 1e-5));
    CHECK_THAT(shape.minFeret, WithinAbs(10, 1e-5));
}

// Source: closed form: along its middle a thread bent over three quarters of a circle of radius R
// is 1.5 pi R long; its straight reach is R sqrt(2) at least.
TEST_CASE("a bent thread is as long as its middle line, ragged or not") {
    const double trueLength = 1.5 * pi * 10.0;
    const Shape smooth = measureShape(bentThread(10, 1.0, 0.0));
    CHECK_THAT(smooth.length, WithinRel(trueLength, 0.02));
    const Shape ragged = measureShape(bentThread(10, 1.0, 0.05));
    CHECK_THAT(ragged.length, WithinRel(trueLength, 0.03));
    CHECK(ragged.straightness() < 0.5);
}

TEST_CASE("a disc is rounder than any rectangle, so that its length is its Feret diameter") {
    const Shape disc = measureShape(ellipse(5, 5));
    CHECK_FALSE(geodesicSize(disc.area, disc.perimeter));
    CHECK(disc.length == disc.maxFeret);
}

TEST_CASE("points and lines have no area but keep their lengths, and an empty outline is refused") {
    const Shape point = measureShape(Outline{{3, 4}});
    CHECK(point.area == 0.0);
    CHECK(point.maxFeret == 0.0);
    CHECK(point.centroid == cv::Point2d(3, 4));
    const Shape line = measureShape(Outline{{0, 0}, {3, 4}});
    CHECK(line.area == 0.0);
    CHECK_THAT(line.maxFeret, WithinAbs(5.0, 1e-12));
    CHECK(line.minFeret == 0.0);
    CHECK(line.length == line.maxFeret);
    CHECK(line.centroid == cv::Point2d(1.5, 2));
    CHECK_THROWS_AS(measureShape(Outline{}), std::logic_error);
}

TEST_CASE("an outline has the same shape walked either way and on the card's plane") {
    Outline outline = bentThread(10, 2.0, 0.1);
    std::vector<PointOnCard> onCard;
    for (const cv::Point2d& p : outline)
        onCard.push_back({p.x, p.y});
    const Shape forward = measureShape(outline);
    std::reverse(outline.begin(), outline.end());
    const Shape backward = measureShape(outline);
    CHECK_THAT(backward.area, WithinRel(forward.area, 1e-12));
    CHECK_THAT(backward.centroid.x, WithinAbs(forward.centroid.x, 1e-9));
    CHECK(measureShape(onCard).area == forward.area);
}

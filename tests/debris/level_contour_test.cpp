// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/level_contour.h"
#include "particles/shape.h"

#include <catch2/catch.hpp>
#include <opencv2/imgproc.hpp>

#include <cmath>
#include <functional>
#include <numbers>

using namespace swarfbook;

namespace {

using Inside = std::function<bool(double, double)>;

/// What a lens shows of a flat shape: coverage of every pixel (16 x 16 places), then a Gaussian
/// blur. Half-level is zero.
cv::Mat seen(cv::Size size, double sigma, const Inside& inside) {
    cv::Mat field(size, CV_32F);
    constexpr int n = 16;
    for (int y = 0; y < size.height; ++y)
        for (int x = 0; x < size.width; ++x) {
            int hits = 0;
            for (int j = 0; j < n; ++j)
                for (int i = 0; i < n; ++i)
                    hits += inside(x + (i + 0.5) / n - 0.5, y + (j + 0.5) / n - 0.5) ? 1 : 0;
            field.at<float>(y, x) = static_cast<float>(hits) / (n * n);
        }
    cv::GaussianBlur(field, field, {13, 13}, sigma);
    return field - 0.5F;
}

Inside disc(cv::Point2d centre, double radius) {
    return [=](double x, double y) { return std::hypot(x - centre.x, y - centre.y) <= radius; };
}

Inside rectangle(cv::Point2d centre, cv::Point2d half, double turn) {
    const double c = std::cos(turn);
    const double s = std::sin(turn);
    return [=](double x, double y) {
        const double dx = x - centre.x;
        const double dy = y - centre.y;
        return std::abs(c * dx + s * dy) <= half.x && std::abs(c * dy - s * dx) <= half.y;
    };
}

Shape shapeOf(const cv::Mat& field) {
    const auto contour = longestZeroContour(field);
    REQUIRE(contour.size() >= 3);
    return measureShape(std::span<const cv::Point2d>(contour));
}

} // namespace

// Closed form: a disc's area and diameter. The blur of a curved edge moves its half level inward by
// sigma^2 / (2 r): 0.02 px here; linear interpolation between pixels cuts the arc by the rest.
TEST_CASE("A disc's outline is where it was drawn, to a seventh of a pixel", "[debris]") {
    for (const double radius : {12.0, 17.3})
        for (const cv::Point2d centre : {cv::Point2d(30, 30), cv::Point2d(30.37, 29.71)}) {
            const Shape s = shapeOf(seen({61, 61}, 0.8, disc(centre, radius)));
            CHECK(s.areaEquivalentDiameter() == Approx(2.0 * radius).margin(0.12));
            CHECK(s.maxFeret == Approx(2.0 * radius).margin(0.15));
            CHECK(s.minFeret == Approx(2.0 * radius).margin(0.15));
            CHECK(s.centroid.x == Approx(centre.x).margin(0.02));
            CHECK(s.centroid.y == Approx(centre.y).margin(0.02));
        }
}

TEST_CASE("A rectangle has the drawn width, to a tenth of a pixel", "[debris]") {
    for (const double turn : {0.0, 0.21, 0.5, std::numbers::pi / 4.0}) {
        const cv::Point2d half(20.3, 7.6);
        const Shape s = shapeOf(seen({71, 71}, 0.8, rectangle({35.2, 34.9}, half, turn)));
        INFO("turned by " << turn);
        CHECK(s.minFeret == Approx(2.0 * half.y).margin(0.10));
        // Blurred corners are round: they cost at most a pixel of the diagonal, 2 px^2 of the area.
        const double diagonal = 2.0 * std::hypot(half.x, half.y);
        CHECK(s.maxFeret < diagonal + 0.05);
        CHECK(s.maxFeret > diagonal - 1.2);
        const double area = 4.0 * half.x * half.y;
        CHECK(s.area < area + 1.0);
        CHECK(s.area > area - 5.0);
    }
}

// Along a grid line the interpolation is exact where the field is linear.
TEST_CASE("A straight slope is cut exactly where it crosses zero", "[debris]") {
    cv::Mat field(20, 30, CV_32F);
    for (int y = 0; y < field.rows; ++y)
        for (int x = 0; x < field.cols; ++x)
            field.at<float>(y, x) =
                static_cast<float>(std::min(8.3 - std::abs(x - 14.2), 6.1 - std::abs(y - 9.4)));
    const Shape s = shapeOf(field);
    CHECK(s.width == Approx(16.6).margin(1e-4));
    CHECK(s.height == Approx(12.2).margin(1e-4));
    CHECK(s.area == Approx(16.6 * 12.2).margin(1.5)); // its four corners are cut within one cell
}

TEST_CASE("The longest contour is taken, holes and crumbs are not", "[debris]") {
    const Inside ring = [](double x, double y) {
        const double r = std::hypot(x - 30.0, y - 30.0);
        return (r <= 15.0 && r >= 6.0) || std::hypot(x - 54.0, y - 54.0) <= 3.0;
    };
    const Shape s = shapeOf(seen({61, 61}, 0.8, ring));
    CHECK(s.areaEquivalentDiameter() == Approx(30.0).margin(0.1));
}

TEST_CASE("Two pixels that touch at a corner stay apart", "[debris]") {
    cv::Mat field(6, 6, CV_32F, cv::Scalar(-1.0));
    field.at<float>(2, 2) = field.at<float>(3, 3) = 1.0F;
    const Shape s = shapeOf(field);
    CHECK(s.width == Approx(1.0));
    CHECK(s.height == Approx(1.0));
}

TEST_CASE("A field without a positive value has no contour", "[debris]") {
    CHECK(longestZeroContour(cv::Mat(9, 9, CV_32F, cv::Scalar(-0.2))).empty());
}

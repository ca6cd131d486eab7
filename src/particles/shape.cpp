// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "particles/shape.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <stdexcept>

namespace swarfbook {
namespace {

using Points = std::vector<cv::Point2d>;

// A compact piece: below this solidity an outline is bent enough that its length along the bend
// differs from its maximum Feret (a half ring has 0.6, the plumpest banana about 0.8); our choice.
constexpr double compactSolidity = 0.8;
// Steps of an outline lower than this part of the mean thickness are taken as raggedness; our
// choice, tested on ragged arcs of known length.
constexpr double raggedShare = 0.15;

double perimeterOf(std::span<const cv::Point2d> points) {
    double sum = 0.0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const cv::Point2d step = points[(i + 1) % points.size()] - points[i];
        sum += std::hypot(step.x, step.y);
    }
    return sum;
}

struct SignedArea {
    double area = 0.0;
    cv::Point2d centroid;
};

/// Shoelace formula about the first point, which keeps small outlines far from the origin exact.
SignedArea signedAreaOf(std::span<const cv::Point2d> points) {
    double twice = 0.0;
    cv::Point2d moment, mean;
    const cv::Point2d origin = points.front();
    for (std::size_t i = 0; i < points.size(); ++i) {
        const cv::Point2d a = points[i] - origin;
        const cv::Point2d b = points[(i + 1) % points.size()] - origin;
        const double cross = a.cross(b);
        twice += cross;
        moment += cross * (a + b);
        mean += a / static_cast<double>(points.size());
    }
    if (std::abs(twice) < std::numeric_limits<double>::min())
        return {0.0, origin + mean};
    return {0.5 * twice, origin + moment / (3.0 * twice)};
}

/// Convex hull with the outline's own coordinates. OpenCV's hull works in single precision, which
/// is enough to choose the corners once the outline has been moved to the origin.
Points hullOf(std::span<const cv::Point2d> points) {
    std::vector<cv::Point2f> moved;
    moved.reserve(points.size());
    for (const cv::Point2d& p : points)
        moved.emplace_back(p - points.front());
    std::vector<int> corners;
    cv::convexHull(moved, corners, false, false);
    Points hull;
    hull.reserve(corners.size());
    for (const int i : corners)
        hull.push_back(points[static_cast<std::size_t>(i)]);
    return hull;
}

double largestDistance(const Points& hull) {
    double largest = 0.0;
    for (std::size_t i = 0; i < hull.size(); ++i)
        for (std::size_t j = i + 1; j < hull.size(); ++j)
            largest = std::max(largest, std::hypot(hull[i].x - hull[j].x, hull[i].y - hull[j].y));
    return largest;
}

/// The smallest width between parallel tangents always lies along a side of the hull (Freeman and
/// Shapira 1975). All corners are tried for every side: hulls are short, and a pair of callipers
/// turned step by step can be thrown off by rounding.
double smallestWidth(const Points& hull) {
    if (hull.size() < 3)
        return 0.0;
    double smallest = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < hull.size(); ++i) {
        const cv::Point2d side = hull[(i + 1) % hull.size()] - hull[i];
        const double sideLength = std::hypot(side.x, side.y);
        if (sideLength <= 0.0)
            continue;
        double width = 0.0;
        for (const cv::Point2d& corner : hull)
            width = std::max(width, std::abs(side.cross(corner - hull[i])) / sideLength);
        smallest = std::min(smallest, width);
    }
    return std::isfinite(smallest) ? smallest : 0.0;
}

double perimeterWithoutRaggedness(std::span<const cv::Point2d> outline, double tolerance) {
    std::vector<cv::Point2f> moved;
    moved.reserve(outline.size());
    for (const cv::Point2d& p : outline)
        moved.emplace_back(p - outline.front());
    std::vector<cv::Point2f> smooth;
    cv::approxPolyDP(moved, smooth, tolerance, true);
    return cv::arcLength(smooth, true);
}

double lengthOf(std::span<const cv::Point2d> outline, const Shape& shape) {
    if (shape.area <= 0.0 || shape.solidity() >= compactSolidity)
        return shape.maxFeret;
    const double meanThickness = 2.0 * shape.area / shape.perimeter;
    const double perimeter =
        std::min(shape.perimeter, perimeterWithoutRaggedness(outline, raggedShare * meanThickness));
    const auto geodesic = geodesicSize(shape.area, perimeter);
    return geodesic ? std::max(shape.maxFeret, geodesic->length) : shape.maxFeret;
}

double ratio(double part, double whole) {
    return whole > 0.0 ? part / whole : 0.0;
}

} // namespace

double Shape::areaEquivalentDiameter() const {
    return 2.0 * std::sqrt(area / std::numbers::pi);
}
double Shape::aspectRatio() const {
    return ratio(minFeret, maxFeret);
}
double Shape::solidity() const {
    return ratio(area, convexArea);
}
double Shape::convexity() const {
    return ratio(convexPerimeter, perimeter);
}
double Shape::formFactor() const {
    return ratio(4.0 * std::numbers::pi * area, perimeter * perimeter);
}
double Shape::circularity() const {
    return std::sqrt(formFactor());
}
double Shape::compactness() const {
    return ratio(areaEquivalentDiameter(), maxFeret);
}
double Shape::straightness() const {
    return ratio(maxFeret, length);
}

std::optional<GeodesicSize> geodesicSize(double area, double perimeter) {
    const double underRoot = perimeter * perimeter / 16.0 - area;
    if (!(underRoot >= 0.0))
        return std::nullopt;
    const double half = std::sqrt(underRoot);
    return GeodesicSize{perimeter / 4.0 + half, perimeter / 4.0 - half};
}

Shape measureShape(std::span<const cv::Point2d> outline) {
    if (outline.empty())
        throw std::logic_error("an outline without points has no shape");
    const SignedArea enclosed = signedAreaOf(outline);
    const Points hull = hullOf(outline);
    Shape shape;
    shape.centroid = enclosed.centroid;
    shape.area = std::abs(enclosed.area);
    shape.perimeter = perimeterOf(outline);
    shape.convexArea = std::abs(signedAreaOf(hull).area);
    shape.convexPerimeter = perimeterOf(hull);
    shape.maxFeret = largestDistance(hull);
    shape.minFeret = smallestWidth(hull);
    const auto [left, right] = std::minmax_element(
        hull.begin(), hull.end(), [](const auto& a, const auto& b) { return a.x < b.x; });
    const auto [top, bottom] = std::minmax_element(
        hull.begin(), hull.end(), [](const auto& a, const auto& b) { return a.y < b.y; });
    shape.width = right->x - left->x;
    shape.height = bottom->y - top->y;
    shape.length = lengthOf(outline, shape);
    return shape;
}

Shape measureShape(const std::vector<PointOnCard>& outline) {
    std::vector<cv::Point2d> points;
    points.reserve(outline.size());
    for (const PointOnCard& p : outline)
        points.emplace_back(p.x, p.y);
    return measureShape(points);
}

} // namespace swarfbook

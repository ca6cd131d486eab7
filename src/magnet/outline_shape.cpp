// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/outline_shape.h"

#include "base/median.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <stdexcept>

namespace swarfbook {
namespace {

using Parameters = std::vector<double>;
using MakeShape = std::function<OutlineShape(const Parameters&)>;

// A cut block's corners are slightly rounded; the fit does not change this radius.
constexpr double blockCorner = 1.0;

OutlineShape discFrom(const Parameters& p) {
    return {{p[0], p[1]}, 2.0 * p[2], 2.0 * p[2], 0.0, p[2]};
}

OutlineShape blockFrom(const Parameters& p) {
    return {{p[0], p[1]}, p[2], p[3], p[4], std::min({blockCorner, p[2] / 4.0, p[3] / 4.0})};
}

double medianError(const OutlineShape& shape, const std::vector<cv::Point2d>& points) {
    const OutlineFrame frame(shape);
    std::vector<double> errors;
    for (const cv::Point2d& p : points)
        errors.push_back(std::abs(frame.outside(p)));
    return upperMedianOf(std::move(errors));
}

/// One robust step: Huber weights, derivatives by differences.
Parameters improved(const MakeShape& make, const Parameters& at,
                    const std::vector<cv::Point2d>& points) {
    constexpr double huber = 0.2, step = 1e-5;
    const int n = static_cast<int>(at.size());
    std::vector<OutlineFrame> moved;
    for (std::size_t k = 0; k < at.size(); ++k) {
        Parameters p = at;
        p[k] += step;
        moved.emplace_back(make(p));
    }
    const OutlineFrame frame(make(at));
    cv::Mat normal = cv::Mat::zeros(n, n, CV_64F), right = cv::Mat::zeros(n, 1, CV_64F);
    std::vector<double> slope(at.size());
    for (const cv::Point2d& p : points) {
        const double error = frame.outside(p);
        const double weight = std::abs(error) <= huber ? 1.0 : huber / std::abs(error);
        for (std::size_t k = 0; k < at.size(); ++k)
            slope[k] = (moved[k].outside(p) - error) / step;
        for (int i = 0; i < n; ++i) {
            right.at<double>(i) -= weight * slope[static_cast<std::size_t>(i)] * error;
            for (int j = 0; j < n; ++j)
                normal.at<double>(i, j) += weight * slope[static_cast<std::size_t>(i)] *
                                           slope[static_cast<std::size_t>(j)];
        }
    }
    cv::Mat change;
    cv::solve(normal, right, change, cv::DECOMP_SVD);
    Parameters next = at;
    for (int i = 0; i < n; ++i)
        next[static_cast<std::size_t>(i)] += std::clamp(change.at<double>(i), -2.0, 2.0);
    return next;
}

OutlineShape fitted(const MakeShape& make, Parameters at, const std::vector<cv::Point2d>& points) {
    for (int round = 0; round < 15; ++round) {
        at = improved(make, at, points);
        at[2] =
            std::max(at[2], 0.5); // a diverging fit remains a valid shape and loses by its error
        if (at.size() > 3)
            at[3] = std::max(at[3], 0.5);
    }
    return make(at);
}

} // namespace

double OutlineShape::perimeter() const {
    return 2.0 * std::numbers::pi * corner + 2.0 * (width + height) - 8.0 * corner;
}

double OutlineShape::area() const {
    return width * height - (4.0 - std::numbers::pi) * corner * corner;
}

OutlineFrame::OutlineFrame(const OutlineShape& shape)
    : shape_(shape), cos_(std::cos(shape.angle)), sin_(std::sin(shape.angle)),
      halfWidth_(std::max(0.0, shape.width / 2.0 - shape.corner)),
      halfHeight_(std::max(0.0, shape.height / 2.0 - shape.corner)) {}

double OutlineFrame::outside(cv::Point2d p) const {
    const cv::Point2d d = p - shape_.centre;
    const double x = std::abs(d.x * cos_ + d.y * sin_) - halfWidth_;
    const double y = std::abs(d.y * cos_ - d.x * sin_) - halfHeight_;
    return std::hypot(std::max(x, 0.0), std::max(y, 0.0)) + std::min(std::max(x, y), 0.0) -
           shape_.corner;
}

ByOutline OutlineFrame::lookUp(cv::Point2d p) const {
    const cv::Point2d d = p - shape_.centre;
    const double x = d.x * cos_ + d.y * sin_, y = d.y * cos_ - d.x * sin_;
    double coreX = std::clamp(x, -halfWidth_, halfWidth_);
    double coreY = std::clamp(y, -halfHeight_, halfHeight_);
    double awayX = x - coreX, awayY = y - coreY;
    double length = std::hypot(awayX, awayY);
    double outside = length - shape_.corner;
    if (length < 1e-12) { // within the core rectangle: the nearest side counts
        const double toX = halfWidth_ - std::abs(x), toY = halfHeight_ - std::abs(y);
        outside = -std::min(toX, toY) - shape_.corner;
        awayX = toX <= toY ? std::copysign(1.0, x) : 0.0;
        awayY = toX <= toY ? 0.0 : std::copysign(1.0, y);
        length = 1.0;
        (toX <= toY ? coreX : coreY) = toX <= toY ? awayX * halfWidth_ : awayY * halfHeight_;
    }
    awayX /= length;
    awayY /= length;
    // Round the rim: right side, lower right corner, lower side, and so on (y points down).
    double turn = std::atan2(awayY, awayX);
    if (turn < 0.0)
        turn += 2.0 * std::numbers::pi;
    const double w = 2.0 * halfWidth_, h = 2.0 * halfHeight_;
    double straight = coreY + halfHeight_;
    if (awayY > 0.0)
        straight = h + (halfWidth_ - coreX);
    else if (awayX < 0.0 && awayY == 0.0)
        straight = h + w + (halfHeight_ - coreY);
    else if (awayY < 0.0)
        straight = 2.0 * h + w + (coreX + halfWidth_);
    return {outside,
            turn * shape_.corner + straight,
            {awayX * cos_ - awayY * sin_, awayX * sin_ + awayY * cos_}};
}

OutlineShape inset(const OutlineShape& shape, double by) {
    OutlineShape s = shape;
    s.width = std::max(0.2, s.width - 2.0 * by);
    s.height = std::max(0.2, s.height - 2.0 * by);
    s.corner = shape.round() ? s.width / 2.0 : std::min({s.corner, s.width / 4.0, s.height / 4.0});
    return s;
}

OutlineShape enlarged(const OutlineShape& shape, cv::Point2d about, double times) {
    OutlineShape s = shape;
    s.centre = about + (shape.centre - about) * times;
    s.width *= times;
    s.height *= times;
    s.corner *= times;
    return s;
}

std::vector<cv::Point2d> polygonOf(const OutlineShape& shape, double step) {
    const double a = shape.width / 2.0 - shape.corner, b = shape.height / 2.0 - shape.corner;
    const double c = std::cos(shape.angle), s = std::sin(shape.angle);
    const int perCorner = 1 + static_cast<int>(shape.corner * std::numbers::pi / 2.0 / step);
    std::vector<cv::Point2d> polygon;
    for (int quarter = 0; quarter < 4; ++quarter)
        for (int i = 0; i <= perCorner; ++i) {
            const double turn =
                (quarter + static_cast<double>(i) / perCorner) * std::numbers::pi / 2;
            const double x =
                (quarter == 0 || quarter == 3 ? a : -a) + shape.corner * std::cos(turn);
            const double y = (quarter < 2 ? b : -b) + shape.corner * std::sin(turn);
            polygon.emplace_back(shape.centre.x + x * c - y * s, shape.centre.y + x * s + y * c);
        }
    return polygon;
}

FittedShape fitOutline(const std::vector<cv::Point2d>& points, std::optional<bool> saidRound) {
    constexpr double worseAsSaid = 0.5; // mm
    if (points.size() < 12)
        throw std::logic_error("an outline needs at least 12 points");
    std::vector<cv::Point2f> rim(points.begin(), points.end());
    cv::Point2d middle;
    for (const cv::Point2d& p : points)
        middle += p / static_cast<double>(points.size());
    std::vector<double> radii;
    for (const cv::Point2d& p : points)
        radii.push_back(cv::norm(p - middle));
    const cv::RotatedRect box = cv::minAreaRect(rim);
    const OutlineShape disc = fitted(discFrom, {middle.x, middle.y, upperMedianOf(radii)}, points);
    const OutlineShape block = fitted(blockFrom,
                                      {box.center.x, box.center.y, box.size.width, box.size.height,
                                       box.angle * std::numbers::pi / 180.0},
                                      points);
    const double ofDisc = medianError(disc, points), ofBlock = medianError(block, points);
    const double forDisc = saidRound ? (*saidRound ? worseAsSaid : -worseAsSaid) : 0.0;
    return ofDisc <= ofBlock + forDisc ? FittedShape{disc, ofDisc} : FittedShape{block, ofBlock};
}

} // namespace swarfbook

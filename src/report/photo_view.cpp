// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "report/photo_view.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace swarfbook {

namespace {

/// How many times finer than needed the photo is sampled before averaging, so that no photo pixel
/// is skipped; limited to save memory.
int finenessFor(const CardFacts& card, const CardRect& area, PixelsPerMillimetre scale) {
    const double k = card.printScale.value;
    const PointOnCard centre{(area.x + area.width / 2.0) / k, (area.y + area.height / 2.0) / k};
    const double photoScale = card.mapping.scaleAt(centre).value() / k;
    return std::clamp(static_cast<int>(std::ceil(photoScale / scale.value())), 1, 6);
}

/// The plane mapping evaluated on a coarse lattice and interpolated: the lens is smooth, and every
/// 8th pixel is far finer than its bends.
cv::Mat samplingMap(const CardFacts& card, const CardRect& area, double scale, cv::Size size) {
    constexpr int step = 8;
    const double k = card.printScale.value;
    // A node more on every side: enlarged, node c lies at pixel step * (c + 0.5) - 0.5.
    cv::Mat nodes(size.height / step + 3, size.width / step + 3, CV_32FC2);
    for (int r = 0; r < nodes.rows; ++r)
        for (int c = 0; c < nodes.cols; ++c) {
            const PointInPhoto at = card.mapping.photoFromCard(
                {(area.x + step * (c - 0.5) / scale) / k, (area.y + step * (r - 0.5) / scale) / k});
            nodes.at<cv::Vec2f>(r, c) = {static_cast<float>(at.u), static_cast<float>(at.v)};
        }
    cv::Mat all;
    cv::resize(nodes, all, nodes.size() * step, 0, 0, cv::INTER_LINEAR);
    return all(cv::Rect(cv::Point(step, step), size));
}

} // namespace

PhotoView::PhotoView(const cv::Mat& bgr, const CardFacts& card)
    : picture_(bgr), mapping_(card.mapping), printScale_(card.printScale.value) {
    if (bgr.empty() || bgr.type() != CV_8UC3)
        throw std::logic_error("PhotoView needs an 8-bit BGR picture");
}

PhotoView PhotoView::straightened(const cv::Mat& bgr, const CardFacts& card, const CardRect& area,
                                  PixelsPerMillimetre scale) {
    PhotoView view;
    view.straight_ = true;
    view.area_ = area;
    view.scale_ = scale.value();
    const int fineness = finenessFor(card, area, scale);
    const cv::Size size(std::max(1, static_cast<int>(std::lround(area.width * scale.value()))),
                        std::max(1, static_cast<int>(std::lround(area.height * scale.value()))));
    const cv::Mat map = samplingMap(card, area, scale.value() * fineness, size * fineness);
    cv::Mat fine;
    cv::remap(bgr, fine, map, cv::noArray(), cv::INTER_LINEAR, cv::BORDER_CONSTANT,
              cv::Scalar::all(225));
    cv::resize(fine, view.picture_, size, 0, 0, cv::INTER_AREA);
    return view;
}

Spot PhotoView::spotOf(PointOnCard p) const {
    if (straight_)
        return {(p.x - area_.x) * scale_, (p.y - area_.y) * scale_};
    const PointInPhoto q = mapping_.photoFromCard({p.x / printScale_, p.y / printScale_});
    return {q.u + 0.5, q.v + 0.5};
}

PixelsPerMillimetre PhotoView::horizontalScaleAt(PointOnCard p) const {
    constexpr double step = 0.25; // mm: far below any bend of the mapping, far above rounding
    const Spot right = spotOf({p.x + step, p.y}), left = spotOf({p.x - step, p.y});
    const Spot below = spotOf({p.x, p.y + step}), above = spotOf({p.x, p.y - step});
    const double ux = (right.x - left.x) / (2 * step), vx = (right.y - left.y) / (2 * step);
    const double uy = (below.x - above.x) / (2 * step), vy = (below.y - above.y) / (2 * step);
    const double determinant = ux * vy - uy * vx;
    if (determinant == 0.0)
        throw std::logic_error("the card's plane is seen edge on");
    // The step on the card that moves one pixel to the right: J d = (1, 0).
    const double millimetresPerPixel = std::hypot(vy, vx) / std::abs(determinant);
    return PixelsPerMillimetre(1.0 / millimetresPerPixel);
}

} // namespace swarfbook

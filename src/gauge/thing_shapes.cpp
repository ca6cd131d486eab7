// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "gauge/thing_shapes.h"

#include "card/top_view.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace swarfbook {
namespace {

constexpr double finestView = 20.0; // px/mm: 0.3 mm wire is 6 px wide
constexpr double outMargin = 0.5;   // mm: the window's printed line or cut edge
constexpr double standsOut = 0.25;  // of the surface's light: more than a soft shadow takes

/// The view's light as a share of the surface's around, which is flat at the scale of the thing.
cv::Mat againstSurface(const TopView& view, double size) {
    constexpr double coarse = 1.0; // px/mm
    cv::Mat small, codes;
    cv::resize(view.light, small, {}, coarse / view.pxPerMm, coarse / view.pxPerMm, cv::INTER_AREA);
    small.convertTo(codes, CV_8U, 120.0); // white paper at 120: glints above twice that may clip
    const int wide = std::clamp(2 * static_cast<int>(1.5 * size) + 1, 15, 61);
    cv::medianBlur(codes, codes, wide);
    cv::Mat surface;
    codes.convertTo(surface, CV_32F, 1.0 / 120.0);
    cv::resize(surface, surface, view.light.size(), 0, 0, cv::INTER_LINEAR);
    return view.light / cv::max(surface, 0.02);
}

cv::Mat standingOut(const TopView& view, double size) {
    const cv::Mat share = againstSurface(view, size);
    cv::Mat mask = (share < 1.0 - standsOut) | (share > 1.0 + 2.0 * standsOut);
    // A shank's bright streak is as bright as paper: bridge gaps narrower than the thing itself.
    const int bridge = std::max(3, static_cast<int>(0.6 * size * view.pxPerMm) | 1);
    cv::Mat padded;
    cv::copyMakeBorder(mask, padded, bridge, bridge, bridge, bridge, cv::BORDER_REPLICATE);
    cv::morphologyEx(padded, padded, cv::MORPH_CLOSE,
                     cv::getStructuringElement(cv::MORPH_ELLIPSE, {bridge, bridge}));
    return padded({bridge, bridge, mask.cols, mask.rows}).clone();
}

std::optional<RoughShape> shapeOf(const std::vector<cv::Point>& contour, const TopView& view) {
    const cv::RotatedRect box = cv::minAreaRect(contour);
    // Contour points are pixel centres: a blob reaches half a pixel beyond them.
    const double across = (std::min(box.size.width, box.size.height) + 1.0) / view.pxPerMm;
    const double along = (std::max(box.size.width, box.size.height) + 1.0) / view.pxPerMm;
    const double area = (cv::contourArea(contour) + cv::arcLength(contour, true) / 2.0 + 1.0) /
                        (view.pxPerMm * view.pxPerMm);
    const double filled = area / (across * along);
    RoughShape shape;
    shape.centre = view.onCard(cv::Point2d(box.center));
    shape.length = along;
    constexpr double disc = std::numbers::pi / 4.0;
    if (along > 2.5 * across && filled > 0.7) {
        shape.bar = true;
        shape.width = area / along;
        const double turn = (box.size.width >= box.size.height ? box.angle : box.angle + 90.0) *
                            std::numbers::pi / 180.0;
        shape.along = {std::cos(turn), std::sin(turn)};
        return shape;
    }
    if (along < 1.25 * across && std::abs(filled - disc) < 0.12) {
        shape.width = std::sqrt(area / disc);
        return shape;
    }
    return std::nullopt;
}

} // namespace

std::vector<RoughShape> roughShapes(const CalibratedPhoto& photo, double size) {
    const CardRect& w = photo.card.layout.window;
    const double scale = photo.printScale.value;
    const cv::Rect2d area(w.x * scale + outMargin, w.y * scale + outMargin,
                          w.width * scale - 2.0 * outMargin, w.height * scale - 2.0 * outMargin);
    const TopView view =
        viewFromAbove(photo, area, std::min(finestView, photo.trueScale().value()));
    std::vector<std::vector<cv::Point>> contours;
    cv::findContours(standingOut(view, size), contours, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
    std::vector<RoughShape> shapes;
    for (const auto& contour : contours) {
        if (contour.size() < 8)
            continue;
        const auto shape = shapeOf(contour, view);
        if (shape && shape->width > 0.5 * size && shape->width < 2.0 * size)
            shapes.push_back(*shape);
    }
    return shapes;
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/window_crop.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace swarfbook {
namespace {

/// The window's border shrunk by a margin, as points in the photo; many a side, since lenses bend.
std::vector<cv::Point2d> borderInPhoto(const CalibratedPhoto& photo, double margin) {
    const CardRect& w = photo.card.layout.window;
    const double m = margin / photo.printScale.value;
    const PointOnCard corners[] = {{w.x + m, w.y + m},
                                   {w.x + w.width - m, w.y + m},
                                   {w.x + w.width - m, w.y + w.height - m},
                                   {w.x + m, w.y + w.height - m}};
    std::vector<cv::Point2d> border;
    constexpr int perSide = 24;
    for (int side = 0; side < 4; ++side) {
        const PointOnCard a = corners[side];
        const PointOnCard b = corners[(side + 1) % 4];
        for (int i = 0; i < perSide; ++i) {
            const double t = static_cast<double>(i) / perSide;
            const PointInPhoto p =
                photo.card.mapping.photoFromCard({a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)});
            border.emplace_back(p.u, p.v);
        }
    }
    return border;
}

/// The box enlarged to whole cells, as far as the photo reaches.
cv::Rect inWholeCells(const cv::Rect& box, int side, cv::Size photo) {
    const cv::Size size((box.width + side - 1) / side * side,
                        (box.height + side - 1) / side * side);
    const cv::Point corner(std::clamp(box.x, 0, std::max(0, photo.width - size.width)),
                           std::clamp(box.y, 0, std::max(0, photo.height - size.height)));
    return cv::Rect(corner, size) & cv::Rect({0, 0}, photo);
}

/// Cells of the reduced window of which something is true. @return CV_8U, small gaps closed.
template <class Test> cv::Mat cellsWhere(const cv::Mat& reduced, const Test& test) {
    cv::Mat cells(reduced.size(), CV_8U);
    for (int y = 0; y < reduced.rows; ++y)
        for (int x = 0; x < reduced.cols; ++x)
            cells.at<uchar>(y, x) = test(reduced.at<cv::Vec3b>(y, x)) ? 255 : 0;
    cv::morphologyEx(cells, cells, cv::MORPH_CLOSE, cv::Mat::ones(3, 3, CV_8U));
    return cells;
}

struct Unmeasurable {
    cv::Mat cells; ///< CV_8U of the reduced window's size
    std::string why;
    double smallestMm2 = 0.0;
};

/// One connected part that cannot be measured, as outlines on the card.
void addOutlines(std::vector<LeftOut>& out, const CalibratedPhoto& photo, const WindowCrop& crop,
                 std::pair<const cv::Mat&, const std::string&> partAndWhy) {
    const int k = crop.reducedBy;
    std::vector<std::vector<cv::Point>> contours;
    cv::findContours(partAndWhy.first, contours, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_TC89_L1);
    for (const auto& contour : contours) {
        LeftOut part{partAndWhy.second, {}};
        for (const cv::Point p : contour)
            part.outline.push_back(
                photo.trueFromPhoto(crop.inPhoto({(p.x + 0.5) * k - 0.5, (p.y + 0.5) * k - 0.5})));
        if (part.outline.size() >= 3)
            out.push_back(part);
    }
}

/// Pixels of a row or column that a cell stands for.
cv::Range pixelsOf(int at, int cells, int pixels) {
    const auto first = [&](int i) { return (i * pixels + cells - 1) / cells; };
    return {first(at), first(at + 1)};
}

/// Takes cells out of the measured area. @return whether any of them was in it.
bool takeOut(WindowCrop& crop, const cv::Mat& cells) {
    bool any = false;
    for (int y = 0; y < cells.rows; ++y)
        for (int x = 0; x < cells.cols; ++x) {
            if (cells.at<uchar>(y, x) == 0)
                continue;
            cv::Mat inside = crop.inside(pixelsOf(y, cells.rows, crop.inside.rows),
                                         pixelsOf(x, cells.cols, crop.inside.cols));
            any = any || cv::countNonZero(inside) > 0;
            inside.setTo(0);
        }
    return any;
}

std::vector<LeftOut> leaveOut(const CalibratedPhoto& photo, WindowCrop& crop,
                              const Unmeasurable& what) {
    cv::Mat labels, stats, centroids;
    const int count = cv::connectedComponentsWithStats(what.cells, labels, stats, centroids);
    const double cellMm2 = std::pow(crop.reducedBy / crop.pxPerMm, 2);
    std::vector<std::pair<double, int>> large;
    for (int i = 1; i < count; ++i)
        if (stats.at<int>(i, cv::CC_STAT_AREA) * cellMm2 >= what.smallestMm2)
            large.emplace_back(stats.at<int>(i, cv::CC_STAT_AREA) * cellMm2, i);
    std::sort(large.rbegin(), large.rend());
    std::vector<LeftOut> out;
    for (const auto& [area, label] : large) {
        cv::Mat one = labels == label;
        cv::dilate(one, one, cv::Mat::ones(3, 3, CV_8U)); // its halo is not a clean surface either
        if (!takeOut(crop, one))
            continue;
        addOutlines(out, photo, crop, {one, what.why});
    }
    return out;
}

} // namespace

WindowCrop cropWindow(const CalibratedPhoto& photo, Millimetres margin) {
    const auto border = borderInPhoto(photo, margin.value());
    double u0 = border[0].x, u1 = u0, v0 = border[0].y, v1 = v0;
    for (const auto& p : border) {
        u0 = std::min(u0, p.x);
        u1 = std::max(u1, p.x);
        v0 = std::min(v0, p.y);
        v1 = std::max(v1, p.y);
    }
    const cv::Rect box(cv::Point(static_cast<int>(u0) - 1, static_cast<int>(v0) - 1),
                       cv::Point(static_cast<int>(u1) + 3, static_cast<int>(v1) + 3));
    WindowCrop crop;
    crop.pxPerMm = photo.trueScale().value();
    while (crop.pxPerMm / (2.0 * crop.reducedBy) >= 2.0)
        crop.reducedBy *= 2;
    const cv::Rect cut = inWholeCells(box, crop.reducedBy, photo.bgr.size());
    crop.bgr = photo.bgr(cut);
    crop.origin = cut.tl();
    crop.reduced = crop.bgr;
    for (int by = 2; by <= crop.reducedBy; by *= 2) {
        cv::Mat half;
        cv::resize(crop.reduced, half, {crop.reduced.cols / 2, crop.reduced.rows / 2}, 0, 0,
                   cv::INTER_AREA);
        crop.reduced = half;
    }
    crop.inside = cv::Mat::zeros(cut.size(), CV_8U);
    std::vector<cv::Point> polygon;
    constexpr int shift = 4;
    for (const auto& p : border)
        polygon.emplace_back(static_cast<int>(std::lround((p.x - cut.x) * (1 << shift))),
                             static_cast<int>(std::lround((p.y - cut.y) * (1 << shift))));
    cv::fillPoly(crop.inside, std::vector<std::vector<cv::Point>>{polygon}, cv::Scalar(255),
                 cv::LINE_8, shift);
    return crop;
}

std::vector<LeftOut> leaveOutGlare(const CalibratedPhoto& photo, WindowCrop& crop,
                                   bool onWhiteCard) {
    constexpr double smallestMm2 = 2.0; // a flake's facet may wash out; a mirrored lamp is larger
    // A lamp mirrored in shiny paper hides debris there. Bare metal, brighter than paper, washes
    // out too, but as long as its grain shows, debris shows as well. Means of a cell, both found by
    // trial.
    const int full = onWhiteCard ? 252 : 254;
    const cv::Mat glare = cellsWhere(crop.reduced, [full](const cv::Vec3b& c) {
        return (c[0] >= full) + (c[1] >= full) + (c[2] >= full) >= 2;
    });
    return leaveOut(photo, crop, {glare, "glare", smallestMm2});
}

std::vector<LeftOut> leaveOutDeepShadow(const CalibratedPhoto& photo, WindowCrop& crop) {
    constexpr double smallestMm2 = 20.0; // a black piece is smaller and less black
    constexpr int dark = 16; // below it one code is an eighth of the light: too coarse to measure
    const cv::Mat shadow = cellsWhere(
        crop.reduced, [](const cv::Vec3b& c) { return c[0] < dark && c[1] < dark && c[2] < dark; });
    return leaveOut(photo, crop, {shadow, "deep shadow", smallestMm2});
}

SquareMillimetres insideArea(const CalibratedPhoto& photo, const WindowCrop& crop) {
    constexpr int cell = 96; // px: the scale changes evenly over it, the middle stands for all
    double sum = 0.0;
    for (int y = 0; y < crop.inside.rows; y += cell)
        for (int x = 0; x < crop.inside.cols; x += cell) {
            const cv::Rect box =
                cv::Rect(x, y, cell, cell) & cv::Rect(0, 0, crop.inside.cols, crop.inside.rows);
            const int n = cv::countNonZero(crop.inside(box));
            if (n == 0)
                continue;
            const PointOnCard nominal = photo.card.mapping.cardFromPhoto(
                crop.inPhoto({box.x + box.width / 2.0, box.y + box.height / 2.0}));
            const double scale =
                photo.card.mapping.scaleAt(nominal).value() / photo.printScale.value;
            sum += n / (scale * scale);
        }
    return SquareMillimetres(sum);
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/top_view.h"

#include "card/smooth_map.h"
#include "photo/linear_light.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace swarfbook {
namespace {

/// The green channel of the part of the photo that shows `area`, shrunk by a whole number.
struct Source {
    cv::Mat green;
    cv::Point origin; ///< photo pixel of the part's (0, 0)
    int shrink = 1;
};

Source sourceOf(const CalibratedPhoto& photo, const cv::Rect2d& area, double pxPerMm) {
    double left = 1e9, top = 1e9, right = -1e9, bottom = -1e9;
    for (int i = 0; i <= 4; ++i)
        for (int j = 0; j <= 4; ++j) {
            const PointInPhoto p = photo.photoFromTrue(
                {area.x + area.width * i / 4.0, area.y + area.height * j / 4.0});
            left = std::min(left, p.u);
            right = std::max(right, p.u);
            top = std::min(top, p.v);
            bottom = std::max(bottom, p.v);
        }
    Source s;
    s.shrink = std::max(1, static_cast<int>(photo.trueScale().value() / pxPerMm));
    constexpr int rim = 8;
    const cv::Rect wanted(cv::Point(static_cast<int>(left) - rim, static_cast<int>(top) - rim),
                          cv::Point(static_cast<int>(right) + rim, static_cast<int>(bottom) + rim));
    const cv::Rect part = wanted & cv::Rect({}, photo.bgr.size());
    if (part.empty())
        throw std::logic_error("the area to be seen from above lies outside the photo");
    s.origin = part.tl();
    cv::extractChannel(photo.bgr(part), s.green, 1);
    if (s.shrink > 1)
        cv::resize(s.green, s.green, {}, 1.0 / s.shrink, 1.0 / s.shrink, cv::INTER_AREA);
    return s;
}

/// Photo places (of the source) and white light of every pixel of the view.
struct Maps {
    cv::Mat places; ///< CV_32FC2
    cv::Mat white;  ///< CV_32F
};

Maps mapsOf(const CalibratedPhoto& photo, const TopView& view, const Source& source,
            cv::Size size) {
    const auto placeOf = [&](cv::Point2d px) {
        const cv::Point2d mm = view.onCard(px);
        const PointInPhoto p = photo.photoFromTrue({mm.x, mm.y});
        const double n = source.shrink;
        return cv::Vec2f(static_cast<float>((p.u - source.origin.x + 0.5) / n - 0.5),
                         static_cast<float>((p.v - source.origin.y + 0.5) / n - 0.5));
    };
    const auto whiteOf = [&](cv::Point2d px) {
        const cv::Point2d mm = view.onCard(px) / photo.printScale.value;
        return static_cast<float>(photo.light.whiteAt({mm.x, mm.y})[1]);
    };
    return {smoothMap<cv::Vec2f>(size, placeOf), smoothMap<float>(size, whiteOf)};
}

} // namespace

TopView viewFromAbove(const CalibratedPhoto& photo, const cv::Rect2d& area, double pxPerMm) {
    TopView view;
    view.pxPerMm = pxPerMm;
    const cv::Size size(static_cast<int>(std::lround(area.width * pxPerMm)),
                        static_cast<int>(std::lround(area.height * pxPerMm)));
    if (size.empty())
        throw std::logic_error("an empty area cannot be seen from above");
    view.area = {area.x, area.y, size.width / pxPerMm, size.height / pxPerMm};
    const Source source = sourceOf(photo, view.area, pxPerMm);
    const Maps maps = mapsOf(photo, view, source, size);
    cv::Mat codes;
    cv::remap(source.green, codes, maps.places, {}, cv::INTER_LINEAR, cv::BORDER_CONSTANT,
              cv::Scalar::all(255));
    const cv::Mat table(1, 256, CV_32F, const_cast<float*>(linearFromSrgb().data()));
    cv::LUT(codes, table, view.light);
    view.light /= maps.white;
    return view;
}

CameraPlace cameraPlaceOf(const CalibratedPhoto& photo) {
    const cv::Matx33d& h = photo.card.mapping.h;
    cv::Vec3d right(h(0, 0), h(1, 0), h(2, 0));
    cv::Vec3d down(h(0, 1), h(1, 1), h(2, 1));
    cv::Vec3d origin(h(0, 2), h(1, 2), h(2, 2));
    const double unit = 0.5 * (cv::norm(right) + cv::norm(down));
    right /= unit;
    down /= unit;
    origin /= unit;
    // The rotation nearest to columns that a fit leaves not quite square to each other.
    cv::Matx33d columns;
    const cv::Vec3d away = right.cross(down);
    for (int i = 0; i < 3; ++i) {
        columns(i, 0) = right[i];
        columns(i, 1) = down[i];
        columns(i, 2) = away[i];
    }
    cv::Mat w, u, vt;
    cv::SVD::compute(cv::Mat(columns), w, u, vt);
    const cv::Matx33d rotation = cv::Mat(u * vt);
    const cv::Vec3d centre = -(rotation.t() * origin);
    const double scale = photo.printScale.value;
    return {{centre[0] * scale, centre[1] * scale}, std::abs(centre[2]) * scale};
}

} // namespace swarfbook

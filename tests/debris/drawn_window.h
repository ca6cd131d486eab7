// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/window_crop.h"
#include "photo/linear_light.h"

#include <opencv2/imgproc.hpp>

#include <cmath>

namespace swarfbook::test {

/// A photo that is all window, seen straight from above.
///
/// @param white  the code of the card's white, all channels.
inline CalibratedPhoto flatPhoto(const cv::Mat& bgr, double pxPerMm, int white = 200) {
    CalibratedPhoto photo;
    photo.bgr = bgr;
    photo.card.layout.window = {0, 0, (bgr.cols - 1) / pxPerMm, (bgr.rows - 1) / pxPerMm};
    photo.card.scale = PixelsPerMillimetre(pxPerMm);
    photo.card.mapping.h = cv::Matx33d(pxPerMm, 0, 0, 0, pxPerMm, 0, 0, 0, 1);
    photo.surface = photo.card.mapping;
    photo.sharpness = {Pixels(3.0), Pixels(3.0), Pixels(3.0), 16};
    for (auto& surface : photo.light.surface)
        surface[0] = std::log(double(linearFromSrgb()[static_cast<std::size_t>(white)]));
    return photo;
}

/// Its window; only a thin rim of the picture is not measured.
inline WindowCrop windowOf(const cv::Mat& bgr, double pxPerMm = 20.0) {
    return cropWindow(flatPhoto(bgr, pxPerMm), Millimetres(3.0 / pxPerMm));
}

/// A place of the picture in its window.
inline cv::Point inCrop(const WindowCrop& crop, cv::Point inPicture) {
    return inPicture - crop.origin;
}

/// A plain surface with Gaussian noise. Colours B, G, R in codes.
inline cv::Mat plainSurface(cv::Size size, const cv::Scalar& colour, double noise) {
    cv::Mat exact(size, CV_32FC3, colour);
    cv::Mat grain(size, CV_32FC3);
    cv::RNG random(42);
    random.fill(grain, cv::RNG::NORMAL, 0.0, noise > 0.0 ? noise : 1e-6);
    exact += grain;
    cv::Mat picture;
    exact.convertTo(picture, CV_8UC3);
    return picture;
}

inline void drawDisc(cv::Mat& bgr, cv::Point centre, int radius, const cv::Scalar& colour) {
    cv::circle(bgr, centre, radius, colour, cv::FILLED, cv::LINE_AA);
}

} // namespace swarfbook::test

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <opencv2/core.hpp>

#include <stdexcept>
#include <vector>

namespace swarfbook::test {

/// Outer half-level contour of a binary mask: the polygon through the middles of the pixel sides
/// between inside and outside, pixel centres at whole numbers. Follows the border of the first
/// piece met in reading order with the piece on its right; pixels that touch at a corner belong
/// together.
inline std::vector<cv::Point2d> maskOutline(const cv::Mat1b& mask) {
    const auto inside = [&](cv::Point p) {
        return p.x >= 0 && p.y >= 0 && p.x < mask.cols && p.y < mask.rows && mask(p) != 0;
    };
    cv::Point pixel(-1, -1);
    for (int y = 0; y < mask.rows && pixel.x < 0; ++y)
        for (int x = 0; x < mask.cols && pixel.x < 0; ++x)
            if (inside({x, y}))
                pixel = {x, y};
    if (pixel.x < 0)
        throw std::invalid_argument("an empty mask has no outline");
    cv::Point outward(0, -1);
    const cv::Point firstPixel = pixel, firstOutward = outward;
    std::vector<cv::Point2d> outline;
    do {
        outline.emplace_back(pixel.x + 0.5 * outward.x, pixel.y + 0.5 * outward.y);
        const cv::Point ahead(-outward.y, outward.x); // clockwise as seen, y down
        if (inside(pixel + outward + ahead)) {
            pixel += outward + ahead;
            outward = -ahead;
        } else if (inside(pixel + ahead)) {
            pixel += ahead;
        } else {
            outward = ahead;
        }
    } while (pixel != firstPixel || outward != firstOutward);
    return outline;
}

/// Pixels whose centre satisfies the test, the digitisation rule of all reference figures here.
template <class Inside> cv::Mat1b rasterised(cv::Size size, const Inside& inside) {
    cv::Mat1b mask(size, 0);
    for (int y = 0; y < size.height; ++y)
        for (int x = 0; x < size.width; ++x)
            if (inside(static_cast<double>(x), static_cast<double>(y)))
                mask(y, x) = 255;
    return mask;
}

} // namespace swarfbook::test

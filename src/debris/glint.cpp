// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/glint.h"

#include "photo/linear_light.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <vector>

namespace swarfbook {
namespace {

constexpr double brightestPart = 0.05; // of the piece's pixels; ours
constexpr int topOfRange = 250;        // code: phones' tone curves bend from here on; ours
constexpr double evening = 0.7;        // px, of the camera's own noise and sharpening; ours

/// Linear light of every channel, evened a little.
cv::Mat_<cv::Vec3f> evenLight(const cv::Mat& bgr) {
    cv::Mat table(1, 256, CV_32F), light;
    std::copy(linearFromSrgb().begin(), linearFromSrgb().end(), table.ptr<float>());
    cv::LUT(bgr, table, light);
    cv::GaussianBlur(light, light, {3, 3}, evening);
    return light;
}

struct Spot {
    double light = 0.0; ///< over white
    bool clipped = false;
};

std::vector<Spot> spotsOf(const cv::Mat& bgr, const cv::Mat& mask, const cv::Vec3d& white) {
    const cv::Mat_<cv::Vec3f> light = evenLight(bgr);
    std::vector<Spot> spots;
    for (int y = 0; y < mask.rows; ++y)
        for (int x = 0; x < mask.cols; ++x) {
            if (mask.at<uchar>(y, x) == 0)
                continue;
            const cv::Vec3f& seen = light(y, x);
            const auto& code = bgr.at<cv::Vec3b>(y, x);
            const double blue = double(seen[0]) / white[0], green = double(seen[1]) / white[1],
                         red = double(seen[2]) / white[2];
            spots.push_back({(blue + 2.0 * green + red) / 4.0,
                             std::max({code[0], code[1], code[2]}) >= topOfRange});
        }
    return spots;
}

} // namespace

Glint glintOf(const cv::Mat& bgr, const cv::Mat& mask, const cv::Vec3d& white) {
    std::vector<Spot> spots = spotsOf(bgr, mask, white);
    if (spots.empty())
        throw std::logic_error("glint is of a piece that covers at least one pixel");
    std::sort(spots.begin(), spots.end(),
              [](const Spot& a, const Spot& b) { return a.light > b.light; });
    const auto last = static_cast<std::ptrdiff_t>(brightestPart * double(spots.size() - 1));
    const auto clipped = std::count_if(spots.begin(), spots.begin() + last + 1,
                                       [](const Spot& spot) { return spot.clipped; });
    return {spots[static_cast<std::size_t>(last)].light, 2 * clipped > last + 1};
}

Glint glintOf(const CalibratedPhoto& photo, const WindowCrop& crop, const Candidate& piece) {
    const cv::Point middle = (piece.box.tl() + piece.box.br()) / 2;
    return glintOf(crop.bgr(piece.box), piece.mask,
                   photo.light.whiteAt(photo.card.mapping.cardFromPhoto(crop.inPhoto(middle))));
}

double fresnelReflectance(double n, double k) {
    if (!(n >= 0.0 && k >= 0.0))
        throw std::logic_error("a refractive index and an extinction coefficient are not negative");
    return ((n - 1.0) * (n - 1.0) + k * k) / ((n + 1.0) * (n + 1.0) + k * k);
}

} // namespace swarfbook

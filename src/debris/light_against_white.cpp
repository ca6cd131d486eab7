// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/light_against_white.h"

#include "debris/window_white.h"
#include "photo/linear_light.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace swarfbook {
namespace {

constexpr float whiteCode = 150.0F; // of data.py
constexpr float inputOffset = 0.8F; // of model.py
constexpr int nodeStep =
    64; // px between nodes: over this distance the white changes evenly by a few per cent

/// sqrt(linear light) of every sRGB code.
const std::array<float, 256>& rootsOfLight() {
    static const auto table = [] {
        std::array<float, 256> roots{};
        for (std::size_t code = 0; code < roots.size(); ++code)
            roots[code] = std::sqrt(linearFromSrgb()[code]);
        return roots;
    }();
    return table;
}

/// The network's input value for each code of the photos it learnt from.
const std::array<float, 256>& inputsOfCodes() {
    static const auto table = [] {
        std::array<float, 256> inputs{};
        for (std::size_t code = 0; code < inputs.size(); ++code)
            inputs[code] = static_cast<float>(code) / whiteCode - inputOffset;
        return inputs;
    }();
    return table;
}

} // namespace

LightAgainstWhite::LightAgainstWhite(const CalibratedPhoto& photo, const NetworkView& view)
    : view_(&view), gains_(view.bgr.rows / nodeStep + 2, view.bgr.cols / nodeStep + 2) {
    const WindowWhite white(photo);
    for (int j = 0; j < gains_.rows; ++j)
        for (int i = 0; i < gains_.cols; ++i) {
            const cv::Vec3d here = white.at(view.inPhoto(cv::Point2d(i * nodeStep, j * nodeStep)));
            for (int c = 0; c < 3; ++c)
                gains_(j, i)[c] = whiteCode / static_cast<float>(std::sqrt(here[c]));
        }
}

cv::Vec3f LightAgainstWhite::gainAt(int y, int node) const {
    const int j = y / nodeStep;
    const float below = static_cast<float>(y % nodeStep) / nodeStep;
    return gains_(j, node) * (1.0F - below) + gains_(j + 1, node) * below;
}

void LightAgainstWhite::write(const cv::Rect& part, const Planes& planes) const {
    const auto& roots = rootsOfLight();
    const auto& inputs = inputsOfCodes();
    const auto plane = static_cast<std::ptrdiff_t>(planes.size.area());
    for (int y = part.y; y < part.y + part.height; ++y) {
        const auto* pixels = view_->bgr.ptr<cv::Vec3b>(y);
        float* out = planes.numbers +
                     static_cast<std::ptrdiff_t>(planes.at.y + y - part.y) * planes.size.width +
                     planes.at.x - part.x;
        for (int from = part.x; from < part.x + part.width;) {
            const int node = from / nodeStep;
            const int to = std::min((node + 1) * nodeStep, part.x + part.width);
            const cv::Vec3f gain = gainAt(y, node);
            const cv::Vec3f more = (gainAt(y, node + 1) - gain) * (1.0F / nodeStep);
            for (int c = 0; c < 3; ++c)
                for (int x = from; x < to; ++x) {
                    const float code =
                        roots[pixels[x][c]] *
                        (gain[c] + more[c] * static_cast<float>(x - node * nodeStep));
                    out[c * plane + x] = inputs[static_cast<std::size_t>(std::min(code, 255.0F))];
                }
            from = to;
        }
    }
}

} // namespace swarfbook

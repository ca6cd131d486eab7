// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/outline_field.h"

#include "photo/linear_light.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace swarfbook {
namespace {

constexpr float brightestOf = 0.5F;  // a facet's flash counts no more than half the surface's light
constexpr float surelyNotOf = 0.75F; // of the level, and ...
constexpr float surely = 0.7F;       // of the piece map: whatever the light says
constexpr float shift =
    0.2F; // the outline lies at 40 % of the rise: blur rounds convex corners off, and at half of
          // it the longest side comes out 3 % short (scenes never seen)
constexpr float plainEdge = 0.5F; // of the largest difference: such an edge needs no second opinion

/// Distance of one pixel from its surface in linear light.
float lightDistance(const cv::Vec3b& pixel, const cv::Vec3b& surface) {
    const auto& linear = linearFromSrgb();
    const float b0 = linear[surface[0]], b1 = linear[surface[1]], b2 = linear[surface[2]];
    const float d0 = linear[pixel[0]] - b0, d1 = linear[pixel[1]] - b1, d2 = linear[pixel[2]] - b2;
    const float light = std::sqrt(0.25F * b0 * b0 + 0.5F * b1 * b1 + 0.25F * b2 * b2);
    const float distance = std::sqrt(0.25F * d0 * d0 + 0.5F * d1 * d1 + 0.25F * d2 * d2);
    const bool brighter = d0 * b0 + 2.0F * d1 * b1 + d2 * b2 > 0.0F;
    return brighter ? std::min(distance, brightestOf * light) : distance;
}

cv::Mat lightDistances(const ContrastField& field, const cv::Rect& box) {
    cv::Mat out(box.size(), CV_32F);
    for (int y = 0; y < box.height; ++y) {
        const auto* pixel = field.smooth.ptr<cv::Vec3b>(box.y + y) + box.x;
        const auto* surface = field.background.ptr<cv::Vec3b>(box.y + y) + box.x;
        auto* d = out.ptr<float>(y);
        for (int x = 0; x < box.width; ++x)
            d[x] = lightDistance(pixel[x], surface[x]);
    }
    return out;
}

} // namespace

cv::Mat outlineField(const ContrastField& field, const OutlineTask& task) {
    const cv::Mat light = lightDistances(field, task.box);
    const cv::Mat around = cv::Mat::ones(2 * task.reach + 1, 2 * task.reach + 1, CV_8U);
    cv::Mat inner, outer;
    cv::dilate(light, inner, around);
    cv::erode(light, outer, around);
    double most = 0.0;
    cv::minMaxLoc(inner - outer, nullptr, &most, nullptr, nullptr, task.piece > task.level);
    const float plain = std::max(plainEdge * static_cast<float>(most), 1e-4F);
    const float surelyNot = surelyNotOf * task.level;
    cv::Mat out(task.box.size(), CV_32F);
    for (int y = 0; y < out.rows; ++y) {
        const auto* pieceRow = task.piece.ptr<float>(y);
        const auto* lightRow = light.ptr<float>(y);
        const auto *innerRow = inner.ptr<float>(y), *outerRow = outer.ptr<float>(y);
        auto* outRow = out.ptr<float>(y);
        for (int x = 0; x < out.cols; ++x) {
            const float piece = pieceRow[x], in = innerRow[x], from = outerRow[x];
            const float rise = std::max(in - from, 1e-6F);
            const float edge = std::min(rise / plain, 1.0F);
            const float half =
                std::clamp(shift + (2.0F * lightRow[x] - in - from) / rise, -1.0F, 1.0F);
            const float map = std::clamp((piece - task.level) / 0.35F, -1.0F, 1.0F);
            float f = edge * half + (1.0F - edge) * map;
            if (piece < surelyNot)
                f = std::min(f, (piece - surelyNot) / surelyNot);
            if (piece > surely)
                f = std::max(f, (piece - surely) / (1.0F - surely));
            outRow[x] = f;
        }
    }
    return out;
}

} // namespace swarfbook

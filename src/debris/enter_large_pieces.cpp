// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/enter_large_pieces.h"

#include "base/median.h"
#include "debris/connected_parts.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <vector>

namespace swarfbook {
namespace {

constexpr double alreadyShown = 0.7;   // of its middle: the model knows better what touches there
constexpr float leastContrast = 12.0F; // codes, as any place worth a look

/// How much of a piece a pixel shows, by its contrast against that of the piece's middle.
float shareOf(float contrast, float middle) {
    return std::clamp((contrast / middle - 0.4F) / 0.2F, 0.0F, 1.0F);
}

/// One region, its mask in the reduced window.
void enterOne(PieceMap& map, const cv::Mat& region, const ContrastField& field, int reducedBy) {
    cv::Mat core, around;
    cv::erode(region, core, cv::Mat::ones(3, 3, CV_8U));
    cv::dilate(region, around, cv::Mat::ones(3, 3, CV_8U));
    const cv::Rect cells = cv::boundingRect(around);
    const cv::Rect box = cv::Rect(cells.tl() * reducedBy, cells.size() * reducedBy) &
                         cv::Rect({0, 0}, field.contrast.size());
    std::vector<double> contrasts;
    std::size_t shown = 0;
    for (int y = box.y; y < box.br().y; ++y)
        for (int x = box.x; x < box.br().x; ++x)
            if (core.at<uchar>(y / reducedBy, x / reducedBy) != 0) {
                contrasts.push_back(field.contrast.at<float>(y, x));
                shown += map.piece.at<uchar>(y, x) > 127 ? 1 : 0;
            }
    if (contrasts.empty() ||
        static_cast<double>(shown) > alreadyShown * static_cast<double>(contrasts.size()))
        return;
    const auto middle = static_cast<float>(upperMedianOf(contrasts));
    if (middle < leastContrast)
        return;
    for (int y = box.y; y < box.br().y; ++y)
        for (int x = box.x; x < box.br().x; ++x)
            if (around.at<uchar>(y / reducedBy, x / reducedBy) != 0) {
                uchar& piece = map.piece.at<uchar>(y, x);
                const float share = shareOf(field.contrast.at<float>(y, x), middle);
                piece = std::max(piece, cv::saturate_cast<uchar>(255.0F * share));
            }
}

} // namespace

void enterLargePieces(PieceMap& map, const WindowCrop& crop, const ContrastField& field) {
    if (field.large.empty())
        return;
    const cv::Rect whole({0, 0}, field.large.size());
    for (const ConnectedPart& part : ConnectedParts(field.large, 1))
        enterOne(map, part.maskIn(whole), field, crop.reducedBy);
}

} // namespace swarfbook

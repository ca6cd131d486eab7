// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "debris/piece_network.h"

#include "base/errors.h"
#include "card/smooth_map.h"
#include "photo/linear_light.h"

#include <fmt/format.h>
#include <opencv2/dnn.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <mutex>

namespace swarfbook {
namespace {

constexpr int context = 48; // px around the window
constexpr int coarsest = 16;
constexpr int types = 5;
constexpr double whiteCode = 150.0;

/// The window and what lies around it against the card's white, as the network takes it.
cv::Mat seen(const CalibratedPhoto& photo, const cv::Rect& box) {
    const cv::Mat white = smoothMap<cv::Vec3f>(box.size(), [&](cv::Point2d p) {
        const PointInPhoto at{p.x + box.x, p.y + box.y};
        return cv::Vec3f(photo.light.whiteAt(photo.card.mapping.cardFromPhoto(at)));
    });
    const auto& linear = linearFromSrgb();
    const int rows = (box.height + coarsest - 1) / coarsest * coarsest;
    const int cols = (box.width + coarsest - 1) / coarsest * coarsest;
    const int sizes[] = {1, 3, rows, cols};
    cv::Mat blob(4, sizes, CV_32F);
    for (int c = 0; c < 3; ++c)
        for (int y = 0; y < rows; ++y) {
            auto* out = blob.ptr<float>(0, c) + static_cast<std::ptrdiff_t>(y) * cols;
            const int row = std::min(y, box.height - 1);
            for (int x = 0; x < cols; ++x) {
                const int col = std::min(x, box.width - 1);
                const float light = linear[photo.bgr.at<cv::Vec3b>(row + box.y, col + box.x)[c]] /
                                    white.at<cv::Vec3f>(row, col)[c];
                const int code = std::clamp(static_cast<int>(whiteCode * std::sqrt(light)), 0, 255);
                out[x] = static_cast<float>(code / whiteCode - 0.8);
            }
        }
    return blob;
}

uchar share(float logit) {
    return cv::saturate_cast<uchar>(255.0F / (1.0F + std::exp(-logit)));
}

/// One map of the answer at full resolution.
cv::Mat mapOf(const cv::Mat& answer, int which, const cv::Rect& asked) {
    cv::Mat map(asked.size(), CV_8U);
    for (int y = 0; y < map.rows; ++y)
        for (int x = 0; x < map.cols; ++x) {
            const int v = y + asked.y, u = x + asked.x;
            const int plane = 4 * which + 2 * (v % 2) + u % 2;
            map.at<uchar>(y, x) = share(answer.ptr<float>(0, plane, v / 2)[u / 2]);
        }
    return map;
}

std::array<cv::Mat, types> typesOf(const cv::Mat& answer, const cv::Rect& asked) {
    std::array<cv::Mat, types> maps;
    for (cv::Mat& map : maps)
        map.create((asked.height + 1) / 2, (asked.width + 1) / 2, CV_8U);
    for (int y = 0; y < maps[0].rows; ++y)
        for (int x = 0; x < maps[0].cols; ++x) {
            std::array<float, types> share{};
            float sum = 0.0F;
            for (int t = 0; t < types; ++t) {
                const int v = y + asked.y / 2, u = x + asked.x / 2;
                share[static_cast<std::size_t>(t)] = std::exp(answer.ptr<float>(0, 8 + t, v)[u]);
                sum += share[static_cast<std::size_t>(t)];
            }
            for (std::size_t t = 0; t < maps.size(); ++t)
                maps[t].at<uchar>(y, x) = cv::saturate_cast<uchar>(255.0F * share[t] / sum);
        }
    return maps;
}

} // namespace

struct PieceNetwork::Parts {
    cv::dnn::Net net;
    std::mutex busy;
};

PieceNetwork::PieceNetwork(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}
PieceNetwork::PieceNetwork(PieceNetwork&&) noexcept = default;
PieceNetwork& PieceNetwork::operator=(PieceNetwork&&) noexcept = default;
PieceNetwork::~PieceNetwork() = default;

PieceNetwork PieceNetwork::load(const std::filesystem::path& file) {
    auto parts = std::make_unique<Parts>();
    try {
        parts->net = cv::dnn::readNetFromONNX(file.string());
    } catch (const std::exception& wrong) {
        throw ToolError(
            fmt::format("The piece network {} is damaged: {}.", file.string(), wrong.what()));
    }
    return PieceNetwork(std::move(parts));
}

PieceMaps PieceNetwork::judge(const CalibratedPhoto& photo, const WindowCrop& crop) const {
    const cv::Point corner(std::min(context, crop.origin.x / 2 * 2),
                           std::min(context, crop.origin.y / 2 * 2));
    const cv::Rect box = cv::Rect(crop.origin - corner,
                                  crop.bgr.size() + cv::Size(corner) + cv::Size(context, context)) &
                         cv::Rect({0, 0}, photo.bgr.size());
    const std::lock_guard lock(parts_->busy);
    parts_->net.setInput(seen(photo, box));
    const cv::Mat answer = parts_->net.forward();
    const cv::Rect asked(corner, crop.bgr.size());
    return {mapOf(answer, 0, asked), mapOf(answer, 1, asked), typesOf(answer, asked)};
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/candidate.h"
#include "debris/drawn_window.h"
#include "debris/shipped_models.h"

#include <opencv2/imgproc.hpp>

namespace swarfbook::test {

/// A window whose maps are drawn as well as its picture, so that only the use of the maps is
/// tested.
struct DrawnMaps {
    cv::Mat picture = plainSurface({600, 400}, {200, 200, 200}, 1.0);
    cv::Mat piece{picture.size(), CV_8U, cv::Scalar(0)};
    cv::Mat seam{picture.size(), CV_8U, cv::Scalar(0)};
    std::array<cv::Mat, 5> types = plainTypes(picture.size());
    CalibratedPhoto photo = flatPhoto(picture, 20.0, 200);
    WindowCrop crop = cropWindow(photo, Millimetres(0.15));

    static std::array<cv::Mat, 5> plainTypes(cv::Size size) {
        std::array<cv::Mat, 5> all;
        for (cv::Mat& one : all)
            one = cv::Mat(size / 2, CV_8U, cv::Scalar(51)); // a fifth each
        return all;
    }

    /// @param answer  of the piece map within, 0 to 255
    void disc(cv::Point at, int radius, int answer = 250, const cv::Scalar& colour = {40, 40, 40}) {
        drawDisc(picture, at, radius, colour);
        cv::circle(piece, at, radius, cv::Scalar(answer), cv::FILLED, cv::LINE_AA);
    }

    /// The maps within the window.
    [[nodiscard]] PieceMaps maps() const {
        const cv::Rect window(crop.origin, crop.bgr.size());
        PieceMaps within{piece(window), seam(window), {}};
        const cv::Rect halved(window.x / 2, window.y / 2, window.width / 2, window.height / 2);
        for (std::size_t i = 0; i < types.size(); ++i)
            within.types[i] = types[i](halved);
        return within;
    }

    [[nodiscard]] std::vector<Candidate> pieces() const {
        return findPieces(maps(), crop, shippedModels().contacts);
    }
};

} // namespace swarfbook::test

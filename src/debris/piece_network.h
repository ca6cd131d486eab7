// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/calibrated_photo.h"
#include "debris/window_crop.h"
#include "network/convolutions.h"

#include <opencv2/core.hpp>

#include <array>
#include <filesystem>
#include <memory>

namespace swarfbook {

/// The piece network's answers for the window's pixels, 0 to 255 for 0 to 1.
struct PieceMaps {
    cv::Mat piece; ///< CV_8U of the crop's size: a piece covers the pixel; 0 where not inside
    cv::Mat seam;  ///< CV_8U of the crop's size: two pieces meet there
    /// CV_8U of half the crop's size, rounded up: the shares, 1 in all, of bright metal, yellow
    /// metal, lining, plastic and fibre in 2 x 2 pixels. They and the seam are 0 where the piece
    /// map is under a tenth in all of these pixels.
    std::array<cv::Mat, 5> types;
};

/// Finds pieces, separates pieces that touch and gives their type, by one convolutional network
/// that sees the photo's light against the light of the card's white (models/network.md says how it
/// was made and how well it does).
class PieceNetwork {
  public:
    /// Throws ToolError if the file is missing, damaged or not such a network.
    static PieceNetwork load(const std::filesystem::path& file,
                             Precision precision = precisionOfProcessor());

    PieceNetwork(PieceNetwork&&) noexcept;
    PieceNetwork& operator=(PieceNetwork&&) noexcept;
    ~PieceNetwork();

    /// A photo with wider edges than the network knows is reduced for it. Safe to call from several
    /// threads. The answer does not depend on how many OpenCV may use.
    /// Checked: tests/debris/piece_network_test.cpp (OpenCV runs the same network).
    [[nodiscard]] PieceMaps judge(const CalibratedPhoto& photo, const WindowCrop& crop) const;

  private:
    struct Parts;
    explicit PieceNetwork(std::unique_ptr<Parts> parts);
    std::unique_ptr<Parts> parts_;
};

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/calibrated_photo.h"
#include "debris/window_crop.h"

#include <opencv2/core.hpp>

#include <array>
#include <filesystem>
#include <memory>

namespace swarfbook {

/// What the network answers for a window.
struct PieceMaps {
    cv::Mat piece; ///< CV_8U of the crop's size, 0 to 255 for 0 to 1: a piece covers the pixel
    cv::Mat seam;  ///< the same: two pieces meet there
    /// CV_8U of half the crop's size each, 0 to 255 for 0 to 1: which type a piece there is of, in
    /// the order of Look, "undecided" left out; they sum to one.
    std::array<cv::Mat, 5> types;
};

/// The network that judges every pixel of a window against the card's white.
class PieceNetwork {
  public:
    /// Reads models/pieces.onnx. Throws ToolError naming the file and what is wrong with it.
    static PieceNetwork load(const std::filesystem::path& file);
    PieceNetwork(PieceNetwork&&) noexcept;
    PieceNetwork& operator=(PieceNetwork&&) noexcept;
    ~PieceNetwork();

    [[nodiscard]] PieceMaps judge(const CalibratedPhoto& photo, const WindowCrop& crop) const;

  private:
    struct Parts;
    explicit PieceNetwork(std::unique_ptr<Parts> parts);
    std::unique_ptr<Parts> parts_;
};

} // namespace swarfbook

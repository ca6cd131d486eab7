// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "debris/contrast.h"
#include "debris/window_crop.h"

#include <opencv2/core.hpp>

#include <filesystem>
#include <memory>
#include <vector>

namespace swarfbook {

/// What the piece model says of the window's pixels, 0 to 255 for 0 to 1; 0 where it was not asked.
struct PieceMap {
    cv::Mat piece; ///< CV_8U: shows a piece, not the surface, a shadow, a drop, a scratch
    cv::Mat seam;  ///< CV_8U: lies between two pieces that touch
};

/// Tells pixels of a piece from what lies around it by how light and colour change over some 40
/// pixels: a small convolutional network, read from an ONNX file (models/pieces.md tells how it was
/// made and how well it does). It sees light only relative to the surface, and photos whose edges
/// are wider than those it knows are reduced for it.
class PieceModel {
  public:
    /// Throws ToolError where the file is missing or damaged.
    static PieceModel load(const std::filesystem::path& file);

    PieceModel(PieceModel&&) noexcept;
    PieceModel& operator=(PieceModel&&) noexcept;
    ~PieceModel();

    /// @param boxes  parts of the crop to look at; may overlap, must lie inside it.
    /// @return maps of the crop's size. Safe to call from several threads, one at a time is served.
    /// Checked: tests/debris/piece_model_test.cpp (drawn pieces with and without shadows).
    [[nodiscard]] PieceMap judge(const WindowCrop& crop, const ContrastField& field,
                                 const std::vector<cv::Rect>& boxes, Pixels edgeWidth) const;

  private:
    struct Network;
    explicit PieceModel(std::unique_ptr<Network> network);
    std::unique_ptr<Network> network_;
};

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "report/drawing.h"

#include <opencv2/core.hpp>

#include <optional>
#include <string>
#include <vector>

namespace swarfbook {

/// Finds room for letters beside pieces: wholly in the picture and not on a piece, another letter
/// or a line.
class LetterRoom {
  public:
    /// @param picture   width and height, pixels.
    /// @param em        letter size, pixels.
    LetterRoom(Extent picture, double em);
    /// Keeps letters off a closed polygon.
    void keepOff(const std::vector<Spot>& polygon);
    /// Keeps letters off a box.
    void keepOff(Spot topLeft, Extent box);
    /// Keeps letters off a line.
    void keepOffLine(const std::vector<Spot>& line);
    /// Whether a straight line crosses none of the places that letters are kept off.
    [[nodiscard]] bool isClear(Spot from, Spot to) const;
    /// Takes a free place for a letter near the polygon; nullopt if there is none within three
    /// letter sizes. The line from the polygon to it crosses no other letter, and no later letter
    /// will be on it.
    /// @param width  of the letter, pixels
    /// @return middle of the letter's box, a little wider than that and an em high.
    std::optional<Spot> place(const std::vector<Spot>& polygon, double width);
    [[nodiscard]] double em() const { return em_; }

  private:
    [[nodiscard]] bool isFree(const cv::Rect& cells) const;
    [[nodiscard]] cv::Point cellOf(Spot spot) const;
    double em_;
    double cell_; // pixels of a cell: an eighth of a letter
    [[nodiscard]] bool crossesLetter(cv::Point from, cv::Point to) const;
    void take(const cv::Rect& box, cv::Point lineFrom);
    cv::Mat taken_;
    cv::Mat letters_; ///< of the same cells, those of letters alone
};

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/layout.h"
#include "record/book.h"
#include "web/asked.h"

#include <opencv2/core.hpp>

#include <cstdint>
#include <string>

/// Pictures of the book's photos as the pages show them.
/// Checked: tests/web/upload_test.cpp, tests/web/compare_test.cpp.
namespace swarfbook::web {

/// Photos of two visits are shown from above at this scale, so that a millimetre is as long in
/// both.
inline constexpr PixelsPerMillimetre fromAbove(20.0);

/// Where the card's window lies when it is seen from above.
struct SeenFromAbove {
    CardRect area; ///< true millimetres on the card
    int widthPx = 0, heightPx = 0;
};
/// Whether a photo was measured with pieces in a card's window.
bool canBeSeenFromAbove(const StoredPhoto& photo);
SeenFromAbove seenFromAbove(const StoredPhoto& photo);
/// The outlines of its pieces over that, as SVG.
std::string outlinesFromAbove(const StoredPhoto& photo);

/// The original as browsers show it: its own bytes, or a JPEG made of a HEIC.
Answer originalPicture(const StoredPhoto& photo, const std::vector<std::byte>& bytes);
/// Small, for a list.
Answer smallPicture(const StoredPhoto& photo, const std::vector<std::byte>& bytes);
/// The card's window from above.
Answer pictureFromAbove(const StoredPhoto& photo, const std::vector<std::byte>& bytes);
Answer pngPicture(const cv::Mat& bgr);

} // namespace swarfbook::web

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/calibrated_photo.h"

#include <string>
#include <vector>

namespace swarfbook {

/// What a window looks like that is said to be white paper.
struct WhiteWindow {
    double paperShare = 1.0; ///< of its area that is as light as the card's own paper, 0 to 1
    bool darkThing = false;  ///< something dark of at least 8 mm across lies in it
};

/// Looks at the window from above at 5 px/mm. The photo is of a card whose window is said to be
/// white.
WhiteWindow whiteWindowOf(const CalibratedPhoto& photo);

/// What to ask where the window does not look like one of debris on white paper: whether it is cut
/// out, or whether a magnet lies in it. A sentence or two each; empty for a window as it should be.
/// Checked: tests/magnet/white_window_test.cpp (no question on any pad; magnets and pans said to be
/// pads are asked about).
std::vector<std::string> placeQuestions(const WhiteWindow& window);

} // namespace swarfbook

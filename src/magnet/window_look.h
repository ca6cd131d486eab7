// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "card/calibrated_photo.h"

#include <string>
#include <vector>

namespace swarfbook {

/// What a window looks like beside the card's own paper.
struct WindowLook {
    double paperShare = 1.0;  ///< of its area that is as light as paper or lighter, 0 to 1
    double likePaper = 1.0;   ///< of its area that is as light as paper and no lighter, 0 to 1
    double medianLight = 1.0; ///< of its area, in shares of the paper's light
    double redness = 1.0;     ///< median of red over blue light, 1 on paper
    bool darkObject = false;  ///< a dark object of 8 mm or more is in the window
};

/// Looks at the window from above at 5 px/mm.
WindowLook windowLookOf(const CalibratedPhoto& photo);

/// Questions about a window that is said to be white paper and does not look like it: is it cut
/// out, or does a magnet lie in it? A sentence or two each; empty if the window looks right.
/// Checked: tests/blackbox/window_look_test.cpp (no question on any white card; magnets, pans,
/// trays and filters said to be white cards are asked about).
std::vector<std::string> whiteWindowQuestions(const WindowLook& window);

/// The same for a window that is said to be cut out: is it white paper after all, and is the white
/// tray a pan? Pans and trays can look alike: a pan more than half as light as the paper goes
/// unnoticed. Checked: tests/blackbox/window_look_test.cpp.
std::vector<std::string> cutWindowQuestions(const WindowLook& window, bool saidTray);

} // namespace swarfbook

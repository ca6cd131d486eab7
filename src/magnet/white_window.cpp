// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/white_window.h"

#include "card/top_view.h"
#include "magnet/silhouette.h"

#include <opencv2/imgproc.hpp>

namespace swarfbook {
namespace {

constexpr double windowPxPerMm = 5.0;
constexpr double asPaper = 0.7;      // of the paper's light
constexpr double leastOfPaper = 0.8; // our own experiment: pads with truth have 0.96 and more
} // namespace

WhiteWindow whiteWindowOf(const CalibratedPhoto& photo) {
    const CardRect& r = photo.card.layout.window;
    const double s = photo.printScale.value, rim = 3.5;
    const cv::Rect2d window(r.x * s, r.y * s, r.width * s, r.height * s);
    const cv::Rect2d seen(window.x - rim, window.y - rim, window.width + 2.0 * rim,
                          window.height + 2.0 * rim);
    const TopView view = viewFromAbove(photo, seen, windowPxPerMm);
    const Ground ground = groundOf(view, window);
    const int all = cv::countNonZero(ground.inWindow);
    WhiteWindow found;
    if (all == 0)
        return found;
    found.paperShare =
        static_cast<double>(cv::countNonZero((view.light > asPaper) & ground.inWindow)) / all;
    found.darkThing = findDarkThing(view, ground).has_value();
    return found;
}

std::vector<std::string> placeQuestions(const WhiteWindow& window) {
    if (window.darkThing)
        return {"A dark thing of 8 mm or more is seen in the window, which was said to be white "
                "paper with debris on it. If it is a magnet, say place magnet: its fuzz is "
                "measured only there. If the window is cut out, say place pan, filter or tray."};
    if (window.paperShare < leastOfPaper)
        return {"Much of the window is not as light as the card's paper. If it is cut out, say "
                "what lies under it: place pan, filter or tray."};
    return {};
}

} // namespace swarfbook

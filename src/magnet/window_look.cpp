// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/window_look.h"

#include "base/median.h"
#include "card/top_view.h"
#include "magnet/silhouette.h"
#include "photo/linear_light.h"

#include <opencv2/imgproc.hpp>

#include <cmath>

namespace swarfbook {
namespace {

constexpr double windowPxPerMm = 5.0;

// Our own experiment, the photos with truth beside this project
// (tests/blackbox/window_look_test.cpp):
constexpr double asPaper = 0.7;          // of the paper's light
constexpr double lighterThanPaper = 1.5; // of the paper's light: wet plastic mirrors the sky
constexpr double leastOfPaper = 0.8;     // white cards have 0.96 and more
constexpr double surelyPaper =
    0.9; // of what looks like paper: white cards 0.87 and more, others 0.81
constexpr double tinted =
    0.05; // of red over blue: white cards 0.02, filters and pans 0.07 and more
constexpr double darkTray = 0.5; // of the paper's light

/// Median of red over blue light at places all over the window, beside the paper's own.
double rednessOf(const CalibratedPhoto& photo) {
    const CardRect& w = photo.card.layout.window;
    constexpr int across = 40, down = 30;
    std::vector<double> ratios;
    for (int j = 1; j < down; ++j)
        for (int i = 1; i < across; ++i) {
            const PointOnCard p{w.x + w.width * i / across, w.y + w.height * j / down};
            const PointInPhoto at = photo.surface.photoFromCard(p);
            const int u = static_cast<int>(std::lround(at.u));
            const int v = static_cast<int>(std::lround(at.v));
            if (u < 0 || v < 0 || u >= photo.bgr.cols || v >= photo.bgr.rows)
                continue;
            const auto& pixel = photo.bgr.at<cv::Vec3b>(v, u);
            const double blue = linearFromSrgb()[pixel[0]], red = linearFromSrgb()[pixel[2]];
            const cv::Vec3d white = photo.light.whiteAt(p);
            if (blue > 0.0 && white[2] > 0.0)
                ratios.push_back(red / blue * white[0] / white[2]);
        }
    return ratios.empty() ? 1.0 : upperMedianOf(std::move(ratios));
}

double medianWithin(const cv::Mat& light, const cv::Mat& mask) {
    std::vector<double> all;
    for (int y = 0; y < light.rows; ++y)
        for (int x = 0; x < light.cols; ++x)
            if (mask.at<uchar>(y, x) != 0)
                all.push_back(static_cast<double>(light.at<float>(y, x)));
    return upperMedianOf(std::move(all));
}

} // namespace

WindowLook windowLookOf(const CalibratedPhoto& photo) {
    const CardRect& r = photo.card.layout.window;
    const double s = photo.printScale.value, rim = 3.5;
    const cv::Rect2d window(r.x * s, r.y * s, r.width * s, r.height * s);
    const cv::Rect2d seen(window.x - rim, window.y - rim, window.width + 2.0 * rim,
                          window.height + 2.0 * rim);
    const TopView view = viewFromAbove(photo, seen, windowPxPerMm);
    const Ground ground = groundOf(view, window);
    const double all = cv::countNonZero(ground.inWindow);
    WindowLook found;
    if (all == 0.0)
        return found;
    const cv::Mat light = view.light > asPaper;
    found.paperShare = cv::countNonZero(light & ground.inWindow) / all;
    found.likePaper =
        cv::countNonZero(light & (view.light < lighterThanPaper) & ground.inWindow) / all;
    found.medianLight = medianWithin(view.light, ground.inWindow);
    found.redness = rednessOf(photo);
    found.darkObject = findDarkObject(view, ground).has_value();
    return found;
}

std::vector<std::string> whiteWindowQuestions(const WindowLook& window) {
    if (window.darkObject)
        return {"A dark object of 8 mm or more is seen in the window, which was said to be white "
                "paper with debris on it. If it is a magnet, say place magnet: its fuzz is "
                "measured only there. If the window is cut out, say place pan, filter or tray."};
    const bool isTinted = std::abs(window.redness - 1.0) > tinted;
    if (window.likePaper < leastOfPaper || (window.paperShare < surelyPaper && isTinted))
        return {"Much of the window does not look like the card's paper. If it is cut out, say "
                "what lies under it: place pan, filter or tray."};
    return {};
}

std::vector<std::string> cutWindowQuestions(const WindowLook& window, bool saidTray) {
    if (window.likePaper > surelyPaper && std::abs(window.redness - 1.0) <= tinted)
        return {"The window looks like the card's own white paper, and it was said to be cut out. "
                "If it is whole, say place white-card: its debris is counted as the whole sample."};
    if (saidTray && window.medianLight < darkTray)
        return {"The window is less than half as light as the card's paper, and it was said to "
                "show a wash tray. If it is a pan or a filter, say place pan or filter; in a white "
                "tray dark pieces are seen better."};
    return {};
}

} // namespace swarfbook

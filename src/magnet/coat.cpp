// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/coat.h"

#include "magnet/mask_tools.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace swarfbook {
namespace {

// Under a soft light a bare face varies by a tenth; three times that is told from it.
constexpr double fuzzBelow = 0.7;
constexpr double darkestFace = 0.06; // share of white paper: darker faces cannot be told from fuzz
constexpr double bridgedGap = 0.15;  // mm, half of the narrowest gap that counts as bare

/// Brightest value within `radius` px, made on a coarser grid, smooth.
cv::Mat brightestNearby(const cv::Mat& image, double radius) {
    constexpr int coarser = 8;
    cv::Mat top;
    cv::dilate(image, top, cv::Mat::ones(coarser, coarser, CV_8U));
    cv::resize(top, top, {}, 1.0 / coarser, 1.0 / coarser, cv::INTER_NEAREST);
    cv::dilate(top, top, masks::disc(radius / coarser));
    cv::GaussianBlur(top, top, {}, std::max(0.5, 0.4 * radius / coarser));
    cv::resize(top, top, image.size(), 0, 0, cv::INTER_LINEAR);
    return top;
}

double shareAt(const TopView& view, const Coat& coat, const cv::Mat& face, double limit) {
    const cv::Mat fuzz = (coat.smooth < limit * coat.bareLevel) & face;
    const cv::Mat covered = masks::closed(fuzz, view.px(bridgedGap)) & face;
    return cv::countNonZero(covered) / std::max(1.0, static_cast<double>(cv::countNonZero(face)));
}

} // namespace

Coat coatOf(const TopView& view, const Silhouette& silhouette) {
    Coat coat;
    cv::GaussianBlur(view.light, coat.smooth, {}, std::max(0.5, view.px(0.04)));
    cv::Mat patches = coat.smooth.clone();
    patches.setTo(0.0, ~silhouette.body);
    cv::morphologyEx(patches, patches, cv::MORPH_OPEN, masks::disc(view.px(0.15)));
    const cv::Mat middle = masks::shrunk(silhouette.whole, view.px(2.5)) &
                           masks::shrunk(silhouette.body, view.px(0.8));
    const double brightest = masks::quantile(patches, middle, 0.98, darkestFace);
    patches.setTo(0.0, ~masks::shrunk(silhouette.body, view.px(0.4)));
    coat.bareLevel = brightestNearby(patches, view.px(2.5));
    coat.bareLevel = cv::min(coat.bareLevel, 1.25 * brightest);
    coat.bareLevel = cv::max(coat.bareLevel, std::max(0.5 * brightest, darkestFace));
    coat.fuzz = (coat.smooth < fuzzBelow * coat.bareLevel) & silhouette.body;
    return coat;
}

CoveredShare coveredShareOf(const TopView& view, const Coat& coat, const Silhouette& silhouette,
                            const cv::Mat& face) {
    const cv::Mat seen = face & silhouette.whole;
    CoveredShare share;
    share.value = shareAt(view, coat, seen, fuzzBelow);
    const double spread =
        shareAt(view, coat, seen, fuzzBelow + 0.1) - shareAt(view, coat, seen, fuzzBelow - 0.1);
    share.uncertainty = std::hypot(0.02, spread / std::sqrt(12.0));
    return share;
}

Overhang overhangOf(const TopView& view, const Silhouette& silhouette, const Ground& ground,
                    const OverhangScene& scene) {
    constexpr double step = 0.15, barely = 0.2;
    const OutlineFrame frame(scene.outline);
    const double rim = scene.outline.perimeter();
    std::vector<double> reach(static_cast<std::size_t>(rim / step) + 1, -1.0);
    const cv::Mat inside = masks::shrunk(ground.allowed, 2.0);
    for (const cv::Point& px : masks::outerEdge(silhouette.tips)) {
        if (inside.at<unsigned char>(px) == 0)
            continue; // goes on where it was not looked
        const cv::Point2d seen = view.onCard(px);
        const double atFace = frame.outside(scene.camera.settled(seen, scene.faceHeight));
        const ByOutline tip = frame.lookUp(scene.camera.settled(seen, scene.tipHeight));
        const double far = atFace < barely ? std::max(atFace, 0.0) : std::max(tip.outside, 0.0);
        const auto bin = std::min(reach.size() - 1, static_cast<std::size_t>(tip.along / step));
        reach[bin] = std::max(reach[bin], far);
    }
    std::erase_if(reach, [](double r) { return r < 0.0; });
    if (reach.empty())
        return {};
    std::sort(reach.begin(), reach.end());
    Overhang overhang;
    for (const double r : reach)
        overhang.mean += r / static_cast<double>(reach.size());
    overhang.p95 = reach[static_cast<std::size_t>(0.95 * static_cast<double>(reach.size() - 1))];
    overhang.most = reach.back();
    return overhang;
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/coat.h"

#include "magnet/mask_tools.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace swarfbook {
namespace {

// Under a soft light a bare face varies by a tenth; three times that is told from it. Where the
// face's own patches show how much it varies, that is asked instead.
constexpr double fuzzBelow = 0.7;
constexpr double closestLimit = 0.8, timesNoise = 2.2;
// A bare patch sends more than the fuzz, and not much less than the brightest patches of the face.
constexpr double brighterThanFuzz = 1.5, ofBrightestPatch = 0.25;
constexpr double darkestFace = 0.06; // share of white paper: darker faces cannot be told from fuzz
constexpr double bridgedGap = 0.15;  // mm, half of the narrowest gap that counts as bare

// Spread of log light within 0.2 mm: on a bare face the photo's noise alone, among strands 0.3 and
// more. Own experiment on photos with known truth.
constexpr double smoothestLimit = 0.1, roughestLimit = 0.25;
constexpr double quietNoise = 0.08;

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

/// Spread of log light within 0.2 mm of every place.
cv::Mat roughnessOf(const TopView& view, const cv::Mat& light) {
    cv::Mat logLight, mean, square;
    cv::log(cv::max(light, 0.004), logLight);
    const int side = 2 * std::max(1, cvRound(view.px(0.2))) + 1;
    cv::blur(logLight, mean, {side, side});
    cv::blur(logLight.mul(logLight), square, {side, side});
    cv::Mat spread = cv::max(square - mean.mul(mean), 0.0);
    cv::sqrt(spread, spread);
    return spread;
}

/// Patches of the face, 0.4 mm and more, as smooth as the photo shows anything of the magnet, and
/// lighter than fuzz.
cv::Mat barePatches(const TopView& view, const cv::Mat& light, const cv::Mat& smooth,
                    const cv::Mat& body) {
    constexpr double paper = 0.75; // seen between long strands
    const cv::Mat inner = smooth & masks::shrunk(body, view.px(0.4)) & (light < paper);
    const double least =
        std::max({0.5 * darkestFace, brighterThanFuzz * masks::quantile(light, body, 0.05, 0.0),
                  ofBrightestPatch * masks::quantile(light, inner, 0.9, 0.0)});
    const cv::Mat patches = inner & (light > least);
    return masks::opened(patches, view.px(0.2));
}

/// The light of the bare patches, carried over what lies between them: the nearest count most.
cv::Mat levelFrom(const TopView& view, const cv::Mat& light, const cv::Mat& patches) {
    constexpr int coarser = 4;
    constexpr double reach = 1.5; // mm
    cv::Mat weight, weighted, level;
    patches.convertTo(weight, CV_32F, 1.0 / 255.0);
    weighted = light.mul(weight);
    cv::resize(weight, weight, {}, 1.0 / coarser, 1.0 / coarser, cv::INTER_AREA);
    cv::resize(weighted, weighted, {}, 1.0 / coarser, 1.0 / coarser, cv::INTER_AREA);
    const double all = cv::sum(weighted)[0] / cv::sum(weight)[0];
    const double sigma = view.px(reach) / coarser;
    cv::GaussianBlur(weight, weight, {}, sigma);
    cv::GaussianBlur(weighted, weighted, {}, sigma);
    constexpr double hardlyAny = 0.01;
    cv::Mat coarse = (weighted + hardlyAny * all) / (weight + hardlyAny);
    cv::resize(coarse, level, light.size(), 0, 0, cv::INTER_LINEAR);
    return level;
}

double shareAt(const TopView& view, const Coat& coat, const cv::Mat& face, double limit) {
    const cv::Mat fuzz = (coat.smooth < limit * coat.bareLevel) & face;
    const cv::Mat covered = masks::closed(fuzz, view.px(bridgedGap)) & face;
    return cv::countNonZero(covered) / std::max(1.0, static_cast<double>(cv::countNonZero(face)));
}

/// Where no patch of the face is bare: the light of the brightest places nearby.
cv::Mat levelOfBrightest(const TopView& view, const Coat& coat, const Silhouette& silhouette) {
    cv::Mat patches = coat.smooth.clone();
    patches.setTo(0.0, ~silhouette.body);
    cv::morphologyEx(patches, patches, cv::MORPH_OPEN, masks::disc(view.px(0.15)));
    const cv::Mat middle = masks::shrunk(silhouette.whole, view.px(2.5)) &
                           masks::shrunk(silhouette.body, view.px(0.8));
    const double brightest = masks::quantile(patches, middle, 0.98, darkestFace);
    patches.setTo(0.0, ~masks::shrunk(silhouette.body, view.px(0.4)));
    cv::Mat level = brightestNearby(patches, view.px(2.5));
    level = cv::min(level, 1.25 * brightest);
    return cv::max(level, std::max(0.5 * brightest, darkestFace));
}

} // namespace

Coat coatOf(const TopView& view, const Silhouette& silhouette) {
    constexpr double enoughBare = 0.01; // share of the body
    Coat coat;
    cv::GaussianBlur(view.light, coat.smooth, {}, std::max(0.5, view.px(0.04)));
    const cv::Mat roughness = roughnessOf(view, coat.smooth);
    const cv::Mat inner = masks::shrunk(silhouette.body, view.px(0.8));
    const double noise = masks::quantile(roughness, inner, 0.1, roughestLimit);
    const cv::Mat even = roughness < std::clamp(1.6 * noise, smoothestLimit, roughestLimit);
    const cv::Mat patches = barePatches(view, coat.smooth, even, silhouette.body);
    if (cv::countNonZero(patches) <= enoughBare * cv::countNonZero(silhouette.body)) {
        coat.limit = fuzzBelow;
        coat.bareLevel = levelOfBrightest(view, coat, silhouette);
        coat.fuzz = (coat.smooth < coat.limit * coat.bareLevel) & silhouette.body;
        coat.bare = silhouette.body & ~coat.fuzz & (coat.smooth < 1.4 * coat.bareLevel);
        return coat;
    }
    coat.anyBare = true;
    coat.limit = std::clamp(1.0 - timesNoise * noise, fuzzBelow, closestLimit);
    coat.bareLevel = levelFrom(view, coat.smooth, patches);
    if (const double louder = std::min(2.5, noise / quietNoise); louder > 1.0)
        cv::GaussianBlur(view.light, coat.smooth, {}, std::max(0.5, view.px(0.04 * louder)));
    coat.fuzz = (coat.smooth < coat.limit * coat.bareLevel) & silhouette.body;
    coat.bare = even & silhouette.body & ~coat.fuzz & (coat.smooth < 1.4 * coat.bareLevel);
    return coat;
}

CoveredShare coveredShareOf(const TopView& view, const Coat& coat, const Silhouette& silhouette,
                            const cv::Mat& face) {
    const cv::Mat seen = face & silhouette.whole;
    CoveredShare share;
    share.value = shareAt(view, coat, seen, coat.limit);
    const double spread =
        shareAt(view, coat, seen, coat.limit + 0.1) - shareAt(view, coat, seen, coat.limit - 0.1);
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

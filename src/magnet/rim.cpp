// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/rim.h"

#include "magnet/mask_tools.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

namespace swarfbook {
namespace {

constexpr double binWidth = 0.1;  // mm
constexpr double deepest = 6.0;   // mm looked at inside the seen rim
constexpr double beyondRim = 0.5; // and outside it
constexpr double clearCombing = 0.15;
constexpr double dense = 1.5;          // times the light of the darkest depth
constexpr double enoughBareRim = 0.08; // share of the rim

/// Where a point lies as told by the rim under question: mm beyond it and the direction outwards.
using LookUp = std::function<ByOutline(cv::Point2d)>;

struct Combing {
    double depth = 0.0;    ///< mm inside the seen rim
    double strength = 0.0; ///< 0: no direction preferred, 1: every edge runs outwards
};

/// Sums per distance from the seen rim: light's change along and across the way outwards, light,
/// pixels inside the silhouette and all pixels.
struct Sums {
    std::vector<double> difference, total, light, inside, all;
    explicit Sums(std::size_t n) : difference(n), total(n), light(n), inside(n), all(n) {}
};

Sums summed(const TopView& view, const CombingScene& scene, const cv::Rect& part,
            const LookUp& lookUp) {
    const auto bins = static_cast<std::size_t>((deepest + beyondRim) / binWidth);
    Sums sums(bins);
    for (int y = part.y; y < part.y + part.height; y += 2) // half of the rows are plenty
        for (int x = part.x; x < part.x + part.width; ++x) {
            const ByOutline at = lookUp(view.onCard(cv::Point(x, y)));
            const double bin = (at.outside + deepest) / binWidth;
            if (bin < 0.0 || bin >= static_cast<double>(bins))
                continue;
            const auto i = static_cast<std::size_t>(bin);
            sums.all[i] += 1.0;
            if (scene.inside.at<unsigned char>(y, x) == 0)
                continue;
            sums.inside[i] += 1.0;
            sums.light[i] += view.light.at<float>(y, x);
            if (scene.fuzz.at<unsigned char>(y, x) == 0)
                continue;
            const double gx = scene.slopeX.at<float>(y, x), gy = scene.slopeY.at<float>(y, x);
            const double along = gx * at.outward.x + gy * at.outward.y;
            const double across = gx * at.outward.y - gy * at.outward.x;
            sums.difference[i] += across * across - along * along;
            sums.total[i] += across * across + along * along;
        }
    return sums;
}

std::vector<double> smoothed(const std::vector<double>& values) {
    constexpr double sigma = 2.5; // bins: 0.25 mm, less than a strand is long
    std::vector<double> out(values.size());
    const int n = static_cast<int>(values.size());
    for (int i = 0; i < n; ++i) {
        double sum = 0.0, weights = 0.0;
        for (int j = std::max(0, i - 8); j <= std::min(n - 1, i + 8); ++j) {
            const double w = std::exp(-0.5 * (i - j) * (i - j) / (sigma * sigma));
            sum += w * values[static_cast<std::size_t>(j)];
            weights += w;
        }
        out[static_cast<std::size_t>(i)] = sum / weights;
    }
    return out;
}

/// The depth at which fuzz is combed outwards most, of the depths where it is dense: as dark as
/// half again the darkest of all, no paper between the strands. nullopt if it is not combed.
std::optional<Combing> combingPeak(const Sums& sums, double deepestSought) {
    const std::vector<double> difference = smoothed(sums.difference), total = smoothed(sums.total);
    const std::vector<double> light = smoothed(sums.light), inside = smoothed(sums.inside);
    const auto depthOf = [](std::size_t i) {
        return deepest - (static_cast<double>(i) + 0.5) * binWidth;
    };
    std::vector<std::size_t> sought;
    double darkest = 1e9, most = 0.0;
    for (std::size_t i = 0; i < total.size(); ++i)
        if (depthOf(i) <= deepestSought && inside[i] > 0.0 && sums.inside[i] >= 0.6 * sums.all[i]) {
            sought.push_back(i);
            darkest = std::min(darkest, light[i] / inside[i]);
            most = std::max(most, total[i]);
        }
    std::optional<Combing> peak;
    for (const std::size_t i : sought) {
        if (light[i] / inside[i] > dense * darkest || total[i] < 0.1 * most || total[i] <= 0.0)
            continue;
        const double strength = difference[i] / total[i];
        if (strength > clearCombing && (!peak || strength > peak->strength))
            peak = Combing{depthOf(i), strength};
    }
    return peak;
}

/// What is asked about an edge of the silhouette.
struct Edge {
    const std::vector<cv::Point>& points;
    double length; ///< mm
};

/// Whether the face lies bare there and on for 0.3 mm inwards.
bool bareFrom(const TopView& view, const cv::Mat& bare, cv::Point2d at, cv::Point2d inward) {
    for (const double on : {0.0, 0.1, 0.2, 0.3}) {
        const cv::Point2d p = at + view.px(on) * inward;
        const cv::Point px(cvRound(p.x), cvRound(p.y));
        if (!cv::Rect({}, bare.size()).contains(px) || bare.at<unsigned char>(px) == 0)
            return false;
    }
    return true;
}

/// How far within the shape the bare face begins where it comes nearest to the rim: the rim lies no
/// deeper than that.
/// nullopt if too little of the rim has bare face behind its fuzz.
std::optional<double> faceBegins(const TopView& view, const CoatSeen& magnet, const Edge& edge,
                                 const LookUp& lookUp) {
    if (!magnet.coat.anyBare)
        return std::nullopt;
    constexpr double step = 0.5, furthest = 3.0, enough = 0.1, nearest = 0.1; // mm, shares
    constexpr double told = 0.2; // mm after its beginning a face is told by its smoothness
    std::vector<double> depths(static_cast<std::size_t>(edge.length / step) + 1,
                               furthest + deepest);
    for (const cv::Point& px : edge.points) {
        const ByOutline at = lookUp(view.onCard(px));
        double& depth = depths[std::min(depths.size() - 1,
                                        static_cast<std::size_t>(std::abs(at.along) / step))];
        for (double in = 0.1; in < furthest && in - at.outside < depth; in += 0.1)
            if (bareFrom(view, magnet.coat.bare, cv::Point2d(px) - view.px(in) * at.outward,
                         -at.outward)) {
                depth = in - told - at.outside;
                break;
            }
    }
    std::sort(depths.begin(), depths.end());
    const auto bins = static_cast<double>(depths.size());
    if (depths[static_cast<std::size_t>(enough * bins)] > furthest)
        return std::nullopt;
    return depths[static_cast<std::size_t>(nearest * bins)];
}

struct BareRim {
    double share = 0.0; ///< of the rim's length
    double depth = 0.0; ///< median, mm inside the shape
};

/// Where the silhouette's edge is the face's own: no fuzz from 0.3 to 0.6 mm within it.
BareRim bareRimOf(const TopView& view, const Silhouette& silhouette, const Coat& coat,
                  const OutlineShape& seen) {
    constexpr double step = 0.25;
    const OutlineFrame frame(seen);
    const cv::Mat near = masks::grown(coat.fuzz, view.px(0.1));
    const cv::Rect whole({}, near.size());
    std::vector<int> furred(static_cast<std::size_t>(seen.perimeter() / step) + 1, -1);
    std::vector<std::vector<double>> depths(furred.size());
    for (const cv::Point& px : masks::outerEdge(silhouette.whole)) {
        const ByOutline at = frame.lookUp(view.onCard(px));
        const auto bin = std::min(furred.size() - 1, static_cast<std::size_t>(at.along / step));
        bool bare = true;
        for (const double inward : {0.3, 0.4, 0.5, 0.6}) {
            const cv::Point2d p = cv::Point2d(px) - view.px(inward) * at.outward;
            const cv::Point in(cvRound(p.x), cvRound(p.y));
            bare = bare && whole.contains(in) && near.at<unsigned char>(in) == 0 &&
                   coat.bare.at<unsigned char>(in) != 0;
        }
        furred[bin] = std::max(furred[bin], bare ? 0 : 1);
        depths[bin].push_back(-at.outside);
    }
    std::vector<double> bareDepths;
    double bareBins = 0.0;
    for (std::size_t i = 0; i < furred.size(); ++i)
        if (furred[i] == 0) {
            bareBins += 1.0;
            bareDepths.insert(bareDepths.end(), depths[i].begin(), depths[i].end());
        }
    if (bareDepths.empty())
        return {};
    const auto middle = bareDepths.begin() + static_cast<std::ptrdiff_t>(bareDepths.size() / 2);
    std::nth_element(bareDepths.begin(), middle, bareDepths.end());
    return {bareBins / static_cast<double>(furred.size()), *middle};
}

} // namespace

CombingScene combingSceneOf(const TopView& view, const Silhouette& silhouette, const Coat& coat) {
    CombingScene scene;
    cv::Mat smooth;
    cv::GaussianBlur(silhouette.logLight, smooth, {}, std::max(0.5, view.px(0.05)));
    cv::Sobel(smooth, scene.slopeX, CV_32F, 1, 0);
    cv::Sobel(smooth, scene.slopeY, CV_32F, 0, 1);
    scene.inside = masks::shrunk(silhouette.body, view.px(0.2));
    scene.fuzz = masks::grown(coat.fuzz, view.px(0.1)) & scene.inside;
    return scene;
}

RimDepth outerRimDepth(const TopView& view, const CoatSeen& magnet, const OutlineShape& seen) {
    const auto& [silhouette, coat, combing] = magnet;
    const BareRim bare = bareRimOf(view, silhouette, coat, seen);
    if (bare.share >= enoughBareRim)
        return {bare.depth, 0.15, bare.share, true};
    const OutlineFrame frame(seen);
    const Sums sums = summed(view, combing, cv::boundingRect(silhouette.tips),
                             [&](cv::Point2d p) { return frame.lookUp(p); });
    const double deepestSought = std::min(5.0, 0.3 * std::min(seen.width, seen.height));
    const std::vector<cv::Point> edge = masks::outerEdge(silhouette.whole);
    const auto begins = faceBegins(view, magnet, {edge, seen.perimeter()},
                                   [&](cv::Point2d p) { return frame.lookUp(p); });
    if (const auto peak = combingPeak(sums, deepestSought))
        return {std::max(0.0, peak->depth), 0.3, bare.share, true};
    if (begins) {
        constexpr double loose = 2.0; // mm: the middle of a wider band tells no rim
        const double most = std::clamp(*begins, 0.0, deepestSought);
        return {most / 2.0, std::max(0.3, most / std::sqrt(12.0)), bare.share, most < loose};
    }
    if (bare.share > 0.0)
        return {bare.depth, 0.3, bare.share, true};
    return {0.0, 1.0, 0.0, false};
}

InnerRim innerRim(const TopView& view, const CoatSeen& magnet, const OutlineShape& outer) {
    std::vector<double> radii;
    const std::vector<cv::Point> edge = masks::outerEdge(magnet.silhouette.hole);
    for (const cv::Point& px : edge)
        radii.push_back(cv::norm(view.onCard(px) - outer.centre));
    std::sort(radii.begin(), radii.end());
    const double seen = radii[radii.size() / 2];
    const auto lookUp = [&](cv::Point2d p) -> ByOutline {
        const cv::Point2d from = p - outer.centre;
        const double r = std::max(1e-6, cv::norm(from));
        return {seen - r, (std::numbers::pi + std::atan2(from.y, from.x)) * seen, -from / r};
    };
    const cv::Point2d middle = view.inView(outer.centre);
    const int half = static_cast<int>(view.px(seen + deepest));
    const cv::Rect part =
        cv::Rect(cvRound(middle.x) - half, cvRound(middle.y) - half, 2 * half + 1, 2 * half + 1) &
        cv::Rect({}, view.light.size());
    const Sums sums = summed(view, magnet.combing, part, lookUp);
    const double deepestSought = std::min(3.5, 0.4 * (outer.width / 2.0 - seen));
    if (const auto peak = combingPeak(sums, deepestSought))
        return {seen + std::max(0.0, peak->depth), 0.25};
    if (const auto begins = faceBegins(view, magnet, {edge, 2.0 * std::numbers::pi * seen}, lookUp))
        return {seen + std::clamp(*begins, 0.0, deepestSought), 0.35};
    // A bare wall shows on the side away from the camera's foot and cuts the hole short there.
    return {radii[radii.size() * 4 / 5], 0.4};
}

} // namespace swarfbook

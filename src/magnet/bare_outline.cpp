// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/bare_outline.h"

#include "magnet/mask_tools.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <vector>

namespace swarfbook {
namespace {

// Change of log light within 0.2 mm, or three pixels where they are coarse. A bare face's edge
// against its own shadow is weak, but as sharp as the photo.
constexpr float weakStep = 0.35F;
constexpr float sharpShare = 0.5F; // of the step within three times that
constexpr int directions = 720;
constexpr double onRim = 0.15; // mm
// Of all directions: those in which the rim is bare, the edge lies a little behind it, or the edge
// is lost in the magnet's shadow or stands on a ring's hole. Fuzz stands out in the others.
constexpr double bareEnough = 0.1, mostBehind = 0.07, mostLost = 0.35;

/// Edges as sharp as the photo, 2.5 mm and longer.
std::vector<cv::Point> sharpEdges(const TopView& view, const Ground& ground) {
    constexpr double longEnough = 2.5; // mm
    cv::Mat logLight = logLightOf(view);
    cv::GaussianBlur(logLight, logLight, {}, std::max(0.5, view.px(0.06)));
    const double reach = std::max(1.6, view.px(0.1)); // a photo's own edge is as wide
    const cv::Mat step = masks::stepWithin(logLight, reach);
    const cv::Mat sharp = (step > weakStep) &
                          (step > sharpShare * masks::stepWithin(logLight, 3.0 * reach)) &
                          ground.allowed & ~ground.line;
    std::vector<std::vector<cv::Point>> edges;
    cv::findContours(masks::closed(sharp, view.px(0.1)), edges, cv::RETR_EXTERNAL,
                     cv::CHAIN_APPROX_NONE);
    std::vector<cv::Point> points;
    for (const auto& edge : edges) {
        const cv::Rect box = cv::boundingRect(edge);
        if (std::max(box.width, box.height) > view.px(longEnough))
            points.insert(points.end(), edge.begin(), edge.end());
    }
    return points;
}

/// The furthest point in each direction from the middle of them all, mm.
std::vector<cv::Point2d> outermost(const TopView& view, const std::vector<cv::Point>& points) {
    std::vector<cv::Point> hull;
    cv::convexHull(points, hull);
    const cv::Moments all = cv::moments(hull);
    if (all.m00 <= 0.0)
        return {};
    const cv::Point2d middle = view.onCard({all.m10 / all.m00, all.m01 / all.m00});
    std::vector<cv::Point2d> furthest(directions);
    std::vector<double> reach(directions, 0.0);
    for (const cv::Point& p : points) {
        const cv::Point2d at = view.onCard(p), from = at - middle;
        const double turn = std::atan2(from.y, from.x) / (2.0 * std::numbers::pi) + 0.5;
        const auto i =
            std::min<std::size_t>(directions - 1, static_cast<std::size_t>(turn * directions));
        if (cv::norm(from) > reach[i]) {
            reach[i] = cv::norm(from);
            furthest[i] = at;
        }
    }
    std::size_t i = 0;
    std::erase_if(furthest, [&](const cv::Point2d&) { return reach[i++] == 0.0; });
    return furthest;
}

/// How many of the points lie how about a shape. Fuzz stands out from a rim and not behind it.
struct AboutRim {
    int bare = 0;      ///< on the rim
    int behind = 0;    ///< up to 3 mm within it
    int farBehind = 0; ///< further within
    [[nodiscard]] int score() const { return bare - 2 * behind; }
};

AboutRim aboutRim(const OutlineShape& shape, const std::vector<cv::Point2d>& points) {
    constexpr double longestStrand = 3.0; // mm
    const OutlineFrame frame(shape);
    AboutRim about;
    for (const cv::Point2d& p : points) {
        const double outside = frame.outside(p);
        about.bare += std::abs(outside) < onRim ? 1 : 0;
        about.behind += outside < -2.0 * onRim && outside > -longestStrand ? 1 : 0;
        about.farBehind += outside < -longestStrand ? 1 : 0;
    }
    return about;
}

OutlineShape discThrough(cv::Point2d a, cv::Point2d b, cv::Point2d c) {
    b -= a;
    c -= a;
    const double twice = 2.0 * b.cross(c);
    if (std::abs(twice) < 1e-6)
        return {};
    const cv::Point2d from((c.y * b.dot(b) - b.y * c.dot(c)) / twice,
                           (b.x * c.dot(c) - c.x * b.dot(b)) / twice);
    const double across = 2.0 * cv::norm(from);
    return {a + from, across, across, 0.0, across / 2.0};
}

/// The disc through three of the points that has the best score.
OutlineShape bestDisc(const std::vector<cv::Point2d>& points) {
    constexpr int tries = 600;
    std::mt19937 random(1); // the same disc each time
    const auto any = [&] { return points[random() % points.size()]; };
    OutlineShape best;
    int score = 0;
    for (int i = 0; i < tries; ++i) {
        const OutlineShape disc = discThrough(any(), any(), any());
        if (disc.width < smallestMagnet.value())
            continue;
        if (const int its = aboutRim(disc, points).score(); its > score) {
            best = disc;
            score = its;
        }
    }
    return best;
}

/// Where most of the values lie within twice onRim, among those below `limit` (above, where
/// `last`).
double crowdedAt(std::vector<double> values, double limit, bool last) {
    std::erase_if(values, [&](double v) { return last ? v < limit : v > limit; });
    std::sort(values.begin(), values.end());
    std::size_t most = 0, end = 0;
    double at = limit;
    for (std::size_t i = 0; i < values.size(); ++i) {
        while (end < values.size() && values[end] < values[i] + 2.0 * onRim)
            ++end;
        if (end - i > most) {
            most = end - i;
            at = values[i] + onRim;
        }
    }
    return at;
}

/// The block of this angle whose sides most points lie on.
OutlineShape blockAt(double angle, const std::vector<cv::Point2d>& points) {
    constexpr double corner = 0.5; // mm
    std::vector<double> x, y;
    for (const cv::Point2d& p : points) {
        x.push_back(p.x * std::cos(angle) + p.y * std::sin(angle));
        y.push_back(p.y * std::cos(angle) - p.x * std::sin(angle));
    }
    const auto middle = [](const std::vector<double>& values) {
        const auto [low, high] = std::minmax_element(values.begin(), values.end());
        return (*low + *high) / 2.0;
    };
    const double left = crowdedAt(x, middle(x), false), right = crowdedAt(x, middle(x), true);
    const double upper = crowdedAt(y, middle(y), false), lower = crowdedAt(y, middle(y), true);
    const double u = (left + right) / 2.0, v = (upper + lower) / 2.0;
    return {{u * std::cos(angle) - v * std::sin(angle), u * std::sin(angle) + v * std::cos(angle)},
            right - left,
            lower - upper,
            angle,
            corner};
}

OutlineShape bestBlock(const std::vector<cv::Point2d>& points) {
    constexpr int angles = 90;
    OutlineShape best;
    int score = 0;
    for (int i = 0; i < angles; ++i) {
        const OutlineShape block = blockAt(i * std::numbers::pi / 2.0 / angles, points);
        if (const int its = aboutRim(block, points).score(); its > score) {
            best = block;
            score = its;
        }
    }
    return best;
}

/// The shape that the points on it and near it make; nullopt where it lies on too few.
std::optional<OutlineShape> rimThrough(const OutlineShape& rough, bool round,
                                       const std::vector<cv::Point2d>& points) {
    constexpr std::size_t fewest = 60;
    const OutlineFrame frame(rough);
    std::vector<cv::Point2d> near;
    for (const cv::Point2d& p : points)
        if (std::abs(frame.outside(p)) < 2.0 * onRim)
            near.push_back(p);
    if (rough.width < smallestMagnet.value() || near.size() < fewest)
        return std::nullopt;
    const OutlineShape shape = fitOutline(near, round).shape;
    const AboutRim about = aboutRim(shape, points);
    const int lost = directions - static_cast<int>(points.size()) + about.farBehind;
    if (shape.round() != round || about.bare < bareEnough * directions ||
        about.behind > mostBehind * directions || lost > mostLost * directions)
        return std::nullopt;
    return shape;
}

std::optional<OutlineShape> rimOf(const std::vector<cv::Point2d>& points) {
    const auto disc = rimThrough(bestDisc(points), true, points);
    const auto block = rimThrough(bestBlock(points), false, points);
    if (!disc || !block)
        return disc ? disc : block;
    return aboutRim(*block, points).score() > aboutRim(*disc, points).score() ? block : disc;
}

bool liesInWindow(const TopView& view, const Ground& ground, const OutlineShape& shape) {
    const cv::Rect picture({}, view.light.size());
    for (const cv::Point2d& p : polygonOf(shape, 1.0)) {
        const cv::Point2d at = view.inView(p);
        const cv::Point px(cvRound(at.x), cvRound(at.y));
        if (!picture.contains(px) || ground.inWindow.at<unsigned char>(px) == 0)
            return false; // the window's own edge, or something larger than it
    }
    return true;
}

} // namespace

std::optional<OutlineShape> bareOutlineOf(const TopView& view, const Ground& ground) {
    constexpr double halfOfEdge = 0.1; // mm
    constexpr std::size_t fewest = 120;
    const std::vector<cv::Point> edges = sharpEdges(view, ground);
    if (edges.size() < 3)
        return std::nullopt;
    const std::vector<cv::Point2d> points = outermost(view, edges);
    if (points.size() < fewest)
        return std::nullopt;
    const std::optional<OutlineShape> rim = rimOf(points);
    if (!rim || !liesInWindow(view, ground, *rim))
        return std::nullopt;
    const OutlineShape shape = inset(*rim, halfOfEdge);
    if (std::min(shape.width, shape.height) < smallestMagnet.value())
        return std::nullopt;
    return shape;
}

} // namespace swarfbook

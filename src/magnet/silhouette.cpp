// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/silhouette.h"

#include "magnet/mask_tools.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace swarfbook {
namespace {

// Shares of white paper's light. Steel fuzz has 0.01 to 0.05; the full shadow of a single lamp on
// paper, lit by the room alone, is seldom under 0.1.
constexpr double surelyCoat = 0.04;
constexpr double lowestLight = 0.004;
// Change of log light within 0.2 mm: two to one. The soft edge of the shadow of a thing 6 mm high
// is 0.2 mm or more wide under a lamp of 10 mm at 300 mm, and much wider under a tube.
constexpr float sharpStep = 0.7F;
constexpr double holeLight = 0.65;   // paper in the sight of a lamp
constexpr double brightPaper = 0.75; // no face is as bright as this unless it mirrors a lamp
constexpr double tipContrast = 0.12; // log light of a strand thinner than a pixel

cv::Mat blurred(const cv::Mat& image, double sigma) {
    cv::Mat out;
    cv::GaussianBlur(image, out, {}, std::max(0.5, sigma));
    return out;
}

cv::Mat coatOrEdge(const TopView& view, const cv::Mat& logLight) {
    const cv::Mat smooth = blurred(logLight, view.px(0.06));
    return (masks::stepWithin(smooth, view.px(0.1)) > sharpStep) | (view.light < surelyCoat);
}

/// Extent of a mask's smaller side, pixels.
int breadthOf(const cv::Mat& mask) {
    const cv::Rect box = cv::boundingRect(mask);
    return std::min(box.width, box.height);
}

/// Whether a part fills most of the circle round it. A hole does; a bare patch of a face with fuzz
/// growing into it does not.
bool fillsCircle(const cv::Mat& part) {
    constexpr double most = 0.6;
    const std::vector<cv::Point> edge = masks::outerEdge(part);
    cv::Point2f middle;
    float radius = 0.0F;
    cv::minEnclosingCircle(edge, middle, radius);
    return cv::countNonZero(part) > most * std::numbers::pi * radius * radius;
}

/// The enclosed part that shows bright paper, lies in the middle and is round: a ring's hole, not a
/// face that shines between the fuzz.
cv::Mat holeOf(const TopView& view, const cv::Mat& enclosed, const cv::Mat& whole) {
    const cv::Moments all = cv::moments(whole, true);
    const cv::Point2d middle(all.m10 / all.m00, all.m01 / all.m00);
    const double offCentre = 0.15 * breadthOf(whole);
    cv::Mat labels, stats, centroids;
    const int n = cv::connectedComponentsWithStats(enclosed, labels, stats, centroids, 4, CV_32S);
    cv::Mat hole = cv::Mat::zeros(enclosed.size(), CV_8U);
    for (int i = 1; i < n; ++i) {
        if (stats.at<int>(i, cv::CC_STAT_AREA) < view.px(2.0) * view.px(2.0))
            continue;
        const cv::Point2d at(centroids.at<double>(i, 0), centroids.at<double>(i, 1));
        const cv::Mat part = labels == i;
        const double brightest = masks::quantile(view.light, part, 0.9, 0.0);
        const bool paper = brightest > brightPaper || (brightest > holeLight && fillsCircle(part));
        if (paper && cv::norm(at - middle) < offCentre)
            hole |= part;
    }
    return hole;
}

/// The paper seen through a ring of which the face is known, lighter than the face.
cv::Mat holeThrough(const TopView& view, const cv::Mat& whole) {
    const double face =
        masks::quantile(view.light, whole & ~masks::shrunk(whole, view.px(3.0)), 0.5, 0.0);
    const double least = face < holeLight ? holeLight : (face + 1.0) / 2.0;
    const cv::Mat paper = masks::opened((view.light > least) & whole, view.px(0.5));
    return holeOf(view, masks::filled(paper), whole);
}

/// The darkest paper within 0.5 mm, extended inwards over places that are not paper.
cv::Mat darkestPaper(const TopView& view, const cv::Mat& rough) {
    constexpr int coarser = 4;
    constexpr float none = 9.0F;
    cv::Mat paper = blurred(view.light, view.px(0.1));
    paper.setTo(none, masks::grown(rough, view.px(0.1)));
    cv::Mat lowest;
    cv::erode(paper, lowest, cv::Mat::ones(coarser, coarser, CV_8U));
    cv::resize(lowest, lowest, {}, 1.0 / coarser, 1.0 / coarser, cv::INTER_NEAREST);
    cv::erode(lowest, lowest, masks::disc(view.px(0.5) / coarser));
    cv::Mat unknown = lowest > none / 2.0F, distance, labels;
    cv::distanceTransform(unknown, distance, labels, cv::DIST_L2, cv::DIST_MASK_5,
                          cv::DIST_LABEL_PIXEL);
    double most = 0.0;
    cv::minMaxLoc(labels, nullptr, &most);
    std::vector<float> value(static_cast<std::size_t>(most) + 1, 1.0F);
    for (int y = 0; y < lowest.rows; ++y)
        for (int x = 0; x < lowest.cols; ++x)
            if (unknown.at<unsigned char>(y, x) == 0)
                value[static_cast<std::size_t>(labels.at<int>(y, x))] = lowest.at<float>(y, x);
    for (int y = 0; y < lowest.rows; ++y)
        for (int x = 0; x < lowest.cols; ++x)
            lowest.at<float>(y, x) = value[static_cast<std::size_t>(labels.at<int>(y, x))];
    cv::resize(lowest, paper, view.light.size(), 0, 0, cv::INTER_LINEAR);
    return paper;
}

/// Everything dark or sharp that is connected with the largest such thing; holes are not filled.
cv::Mat skeletonOf(const TopView& view, const Ground& ground, const cv::Mat& candidates) {
    const cv::Mat offLine = masks::closed(candidates & ~ground.line, view.px(0.2));
    const cv::Mat core = masks::largestPiece(masks::opened(masks::filled(offLine), view.px(0.8)));
    if (breadthOf(core) < view.px(smallestMagnet.value()))
        return {};
    const cv::Mat near = masks::grown(core, view.px(0.9)); // across the line
    const cv::Mat joined = masks::closed(candidates & (~ground.line | near), view.px(0.2));
    return masks::piecesWith(joined, core & joined);
}

/// The rim where the light falls to half of the paper's; a bare rim by the rough outline.
cv::Mat bodyOf(const TopView& view, const cv::Mat& rough, const cv::Mat& paper,
               const cv::Mat& line) {
    const cv::Mat inner = masks::opened(masks::shrunk(rough, view.px(0.12)), view.px(0.5));
    const cv::Mat dark =
        (view.light < 0.5 * paper) & (rough | (masks::grown(rough, view.px(0.6)) & ~line));
    return masks::closed(masks::largestPiece(inner | dark), view.px(0.15));
}

cv::Mat withTips(const TopView& view, const cv::Mat& whole, const cv::Mat& paper,
                 const cv::Mat& line) {
    cv::Mat logLight, logPaper, lines;
    cv::log(cv::max(blurred(view.light, view.px(0.04)), lowestLight), logLight);
    cv::log(paper, logPaper);
    cv::morphologyEx(logLight, lines, cv::MORPH_BLACKHAT, masks::disc(view.px(0.15)));
    const cv::Mat zone = masks::grown(whole, view.px(2.0)) & ~line;
    const cv::Mat beyond = zone & ~masks::grown(whole, view.px(0.5));
    const double noise = masks::quantile(lines, beyond, 0.5, 0.0);
    const cv::Mat strands =
        (lines > std::max(tipContrast, 5.0 * noise)) & (logLight - logPaper < -0.05) & zone;
    const cv::Mat all = masks::closed(whole | strands, view.px(0.05));
    return masks::filled(masks::closed(masks::piecesWith(all, whole), view.px(0.15)));
}

} // namespace

cv::Mat logLightOf(const TopView& view) {
    cv::Mat logLight;
    cv::log(cv::max(view.light, lowestLight), logLight);
    return logLight;
}

Ground groundOf(const TopView& view, const cv::Rect2d& window) {
    // Names and numbers stand 2 mm and more below the window, marks 3 mm and more round it.
    constexpr double above = 3.0, below = 2.0, lineHalf = 0.3;
    const auto box = [&](double out, double outBelow) {
        const cv::Point2d from = view.inView({window.x - out, window.y - out});
        const cv::Point2d to =
            view.inView({window.x + window.width + out, window.y + window.height + outBelow});
        return cv::Rect(cv::Point(cvRound(from.x), cvRound(from.y)),
                        cv::Point(cvRound(to.x), cvRound(to.y)));
    };
    Ground ground{cv::Mat::zeros(view.light.size(), CV_8U),
                  cv::Mat::zeros(view.light.size(), CV_8U),
                  cv::Mat::zeros(view.light.size(), CV_8U)};
    cv::rectangle(ground.inWindow, box(-1.0, -1.0), cv::Scalar::all(255), cv::FILLED);
    cv::rectangle(ground.allowed, box(above, below), cv::Scalar::all(255), cv::FILLED);
    cv::rectangle(ground.line, box(lineHalf, lineHalf), cv::Scalar::all(255), cv::FILLED);
    cv::rectangle(ground.line, box(-lineHalf, -lineHalf), cv::Scalar::all(0), cv::FILLED);
    return ground;
}

std::optional<cv::Rect2d> findDarkObject(const TopView& coarse, const Ground& ground) {
    constexpr double darkEnough = 0.5, margin = 3.5;
    const cv::Mat dark =
        masks::closed((coarse.light < darkEnough) & ground.allowed, coarse.px(0.5));
    const cv::Mat thing = masks::largestPiece(masks::opened(dark, coarse.px(1.0)));
    if (breadthOf(thing) < coarse.px(smallestMagnet.value()))
        return std::nullopt;
    // A bright face shows its clumps of fuzz first: all that is darker than paper and touches them.
    const cv::Mat shaded =
        masks::opened((coarse.light < brightPaper) & ground.allowed, coarse.px(0.5));
    const cv::Rect box = cv::boundingRect(masks::piecesWith(shaded | thing, thing));
    const cv::Point2d from = coarse.onCard(box.tl()), to = coarse.onCard(box.br());
    const cv::Rect2d area(from.x - margin, from.y - margin, to.x - from.x + 2.0 * margin,
                          to.y - from.y + 2.0 * margin);
    return area & coarse.area;
}

Silhouette silhouetteWithin(const TopView& view, const OutlineShape& shape) {
    Silhouette s;
    s.logLight = logLightOf(view);
    std::vector<cv::Point> polygon;
    for (const cv::Point2d& p : polygonOf(shape, 0.1))
        polygon.emplace_back(cvRound(view.inView(p).x), cvRound(view.inView(p).y));
    s.whole = cv::Mat::zeros(view.light.size(), CV_8U);
    cv::fillPoly(s.whole, polygon, cv::Scalar::all(255));
    s.tips = s.whole;
    s.hole = holeThrough(view, s.whole);
    s.body = s.whole & ~s.hole;
    return s;
}

cv::Mat faceBetweenClumps(const TopView& view, const Ground& ground) {
    constexpr double mostOfIt = 0.6; // of all that is darker than paper, shadow included
    const cv::Mat dark = masks::largestPiece(
        masks::opened((view.light < brightPaper) & ground.allowed, view.px(1.0)));
    const cv::Mat coat = coatOrEdge(view, logLightOf(view)) & ground.allowed & ~ground.line;
    for (const double gap : {1.0, 2.0, 3.0}) { // mm, half of the widest gap
        const cv::Mat face = masks::largestPiece(
            masks::opened(masks::filled(masks::closed(coat, view.px(gap))), view.px(0.8)));
        if (cv::countNonZero(face) > mostOfIt * cv::countNonZero(masks::filled(dark)))
            return face & ~holeThrough(view, face);
    }
    return {};
}

std::optional<Silhouette> silhouetteOf(const TopView& view, const Ground& ground,
                                       const cv::Mat& face) {
    Silhouette s;
    s.logLight = logLightOf(view);
    cv::Mat magnet = coatOrEdge(view, s.logLight) & ground.allowed;
    if (!face.empty())
        magnet |= face;
    const cv::Mat skeleton = skeletonOf(view, ground, magnet);
    if (skeleton.empty())
        return std::nullopt;
    const cv::Mat outer = masks::filled(skeleton);
    const cv::Mat rough = outer & ~holeOf(view, outer & ~skeleton, outer);
    const cv::Mat paper = darkestPaper(view, rough);
    s.body = bodyOf(view, rough, paper, ground.line);
    s.whole = masks::filled(s.body);
    s.hole = holeOf(view, s.whole & ~s.body, s.whole);
    s.body = s.whole & ~s.hole;
    s.tips = withTips(view, s.whole, paper, ground.line);
    return s;
}

std::vector<cv::Point2d> rimPoints(const TopView& view, const Silhouette& silhouette,
                                   const cv::Mat& inside) {
    constexpr std::size_t most = 600;
    const cv::Mat smooth = masks::opened(silhouette.whole, view.px(0.5));
    const std::vector<cv::Point> edge = masks::outerEdge(smooth);
    const std::size_t step = std::max<std::size_t>(1, edge.size() / most);
    std::vector<cv::Point2d> points;
    for (std::size_t i = 0; i < edge.size(); i += step)
        if (inside.at<unsigned char>(edge[i]) != 0)
            points.push_back(view.onCard(edge[i]));
    return points;
}

} // namespace swarfbook

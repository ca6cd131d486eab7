// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "magnet/slivers.h"

#include "magnet/mask_tools.h"
#include "particles/shape.h"
#include "particles/size_classes.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace swarfbook {
namespace {

// Shares of white paper's light.
constexpr double facet = 0.45; // fuzz strands reach 0.3 against a lamp
constexpr double brightest = 0.55;
constexpr double outshining = 1.1;
constexpr double beside = 0.15;  // darker facets of the same piece
constexpr double overFace = 1.4; // times the light of a bare face
// mm. The facets that mirror a lamp end before the piece's own ends; at least half of a piece's
// length was seen to shine. Own experiment on photos with known truth.
constexpr double unseenEnds = 0.15, lengthError = 0.2;
constexpr double surely = 1.96, endError = 0.05; // standard, of what shows: a pixel or so
constexpr double longest = 3.0;
// Spots per square centimetre of the coat that are as bright as a strand against a lamp: 1 and 1.5
// under lamps from above, 14 under a torch from the side; own experiment on three photos.
constexpr double strandAgainstLamp = 0.3;
constexpr double fewSpots = 10.0;

/// Whether the strands themselves shine; beyond the face paper shows between them.
bool strandsShine(const TopView& view, const cv::Mat& smooth, const cv::Mat& coat) {
    const int coated = cv::countNonZero(coat);
    if (coated == 0)
        return false;
    cv::Mat labels, stats, centroids;
    const int n = cv::connectedComponentsWithStats((smooth > strandAgainstLamp) & coat, labels,
                                                   stats, centroids, 8, CV_32S);
    int spots = 0;
    for (int i = 1; i < n; ++i)
        spots += stats.at<int>(i, cv::CC_STAT_AREA) >= 3 ? 1 : 0;
    const double squareCentimetre = view.px(10.0) * view.px(10.0);
    return spots > fewSpots * coated / squareCentimetre;
}

/// Bright spots that are not paper seen between the strands.
cv::Mat facetsOf(const TopView& view, const cv::Mat& smooth, const cv::Mat& coat) {
    const cv::Mat bright = smooth > facet;
    cv::Mat labels, stats, centroids;
    const int n = cv::connectedComponentsWithStats(bright, labels, stats, centroids, 8, CV_32S);
    std::vector<unsigned char> small(static_cast<std::size_t>(n), 0);
    for (int i = 1; i < n; ++i) {
        const int side =
            std::max(stats.at<int>(i, cv::CC_STAT_WIDTH), stats.at<int>(i, cv::CC_STAT_HEIGHT));
        small[static_cast<std::size_t>(i)] =
            side < view.px(longest) && stats.at<int>(i, cv::CC_STAT_AREA) >= 3 ? 255 : 0;
    }
    const cv::Mat spots = masks::ofLabels(labels, small);
    const cv::Mat paper = masks::grown(bright & ~spots, view.px(0.15));
    return spots & coat & ~paper;
}

/// Whether bare face shows beyond both ends of the piece's longest side; its own shadow, too, is
/// taken for fuzz.
bool endsOnFace(const TopView& view, const std::vector<cv::Point>& edge, const cv::Mat& bare) {
    std::vector<cv::Point> hull;
    cv::convexHull(edge, hull);
    std::pair<cv::Point2d, cv::Point2d> ends;
    double furthest = 0.0;
    for (const cv::Point& one : hull)
        for (const cv::Point& other : hull)
            if (const double apart = cv::norm(one - other); apart > furthest) {
                furthest = apart;
                ends = {one, other};
            }
    if (furthest <= 0.0)
        return false;
    const cv::Point2d along = (ends.first - ends.second) / furthest;
    for (const double beyond : {0.2, 0.3}) // mm; the blur of its own edge ends before
        for (const cv::Point2d& at :
             {ends.first + along * view.px(beyond), ends.second - along * view.px(beyond)}) {
            const cv::Point px(cvRound(at.x), cvRound(at.y));
            if (!cv::Rect({}, bare.size()).contains(px) || bare.at<unsigned char>(px) == 0)
                return false;
        }
    return true;
}

/// How long the piece shows, mm on the card's plane: by the outline at half of its brightest light,
/// which no blur makes larger (ISO 13322-1).
double lengthThatShows(const TopView& view, const cv::Mat& smooth,
                       const std::vector<cv::Point>& edge, double glint) {
    const cv::Rect box = cv::boundingRect(edge);
    cv::Mat inside = cv::Mat::zeros(box.size(), CV_8U);
    cv::fillPoly(inside, std::vector<std::vector<cv::Point>>{edge}, cv::Scalar::all(255),
                 cv::LINE_8, 0, -box.tl());
    std::vector<cv::Point> shining, hull;
    cv::findNonZero((smooth(box) > 0.5 * glint) & inside, shining);
    if (shining.empty())
        return 0.0;
    cv::convexHull(shining, hull);
    double furthest = 0.0;
    for (const cv::Point& one : hull)
        for (const cv::Point& other : hull)
            furthest = std::max(furthest, cv::norm(one - other));
    return furthest / view.px(1.0);
}

Particle pieceFrom(const TopView& view, const std::vector<cv::Point>& edge,
                   const SliverScene& scene) {
    const CameraPlace& camera = scene.camera;
    const double above = scene.above;
    std::vector<cv::Point> hull;
    cv::convexHull(edge, hull);
    Particle piece;
    std::vector<PointOnCard> settled;
    const double half = 0.5 + view.px(unseenEnds / 2.0); // a pixel's own half and the unseen ends
    const cv::Rect box = cv::boundingRect(hull);
    const cv::Point2d middle(box.x + (box.width - 1) / 2.0, box.y + (box.height - 1) / 2.0);
    for (const cv::Point& px : hull) {
        const cv::Point2d out = cv::Point2d(px) - middle;
        const double r = cv::norm(out);
        const cv::Point2d seen =
            view.onCard(r > 0.0 ? cv::Point2d(px) + out * (half / r) : cv::Point2d(px));
        piece.outline.push_back({seen.x, seen.y});
        const cv::Point2d at = camera.settled(seen, above);
        settled.push_back({at.x, at.y});
    }
    const Shape shape = measureShape(settled);
    const cv::Point2d centre = camera.settled(view.onCard(middle), above);
    piece.centre = {centre.x, centre.y};
    piece.maxFeret = {Millimetres(shape.maxFeret), Millimetres(lengthError)};
    piece.minFeret = {Millimetres(shape.minFeret), Millimetres(lengthError)};
    piece.area = {SquareMillimetres(shape.area),
                  SquareMillimetres(lengthError * (shape.maxFeret + shape.minFeret) / 2.0)};
    piece.length = Millimetres(shape.maxFeret);
    piece.sizeClass = sizeClassOf(toMicrometres(piece.maxFeret.value));
    piece.type = ParticleType::brightMetal;
    piece.typeProbability = 0.8;
    return piece;
}

} // namespace

std::optional<std::vector<Particle>> sliversOf(const TopView& view, const SliverScene& scene,
                                               Millimetres floor) {
    cv::Mat smooth;
    cv::GaussianBlur(view.light, smooth, {}, std::max(0.5, view.px(0.03)));
    if (strandsShine(view, smooth, scene.coat & scene.face))
        return std::nullopt;
    const cv::Mat facets = facetsOf(view, smooth, scene.coat);
    cv::Mat least(smooth.size(), CV_32F, cv::Scalar::all(beside));
    cv::Mat(cv::max(overFace * scene.bareLevel, beside)).copyTo(least, scene.bare);
    const cv::Mat pieces =
        masks::closed(facets | ((smooth > least) & masks::grown(facets, view.px(0.1)) & scene.coat),
                      view.px(0.15));
    std::vector<std::vector<cv::Point>> edges;
    cv::findContours(pieces, edges, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
    std::vector<Particle> slivers;
    for (const auto& edge : edges) {
        const cv::Rect box = cv::boundingRect(edge);
        double glint = 0.0;
        cv::minMaxLoc(smooth(box), nullptr, &glint, nullptr, nullptr, facets(box));
        const bool onFace = cv::countNonZero(facets(box) & scene.face(box)) > 0;
        if (edge.size() < 3 || glint < (onFace ? brightest : outshining))
            continue;
        Particle piece = pieceFrom(view, edge, scene);
        piece.glint = glint;
        if (!endsOnFace(view, edge, scene.bare))
            piece.leastSize = Millimetres(std::max(0.0, lengthThatShows(view, smooth, edge, glint) /
                                                                scene.camera.stretch(scene.above) -
                                                            surely * endError));
        if (piece.maxFeret.value >= floor)
            slivers.push_back(std::move(piece));
    }
    std::sort(slivers.begin(), slivers.end(), [](const Particle& a, const Particle& b) {
        return a.maxFeret.value > b.maxFeret.value;
    });
    for (std::size_t i = 0; i < slivers.size(); ++i)
        slivers[i].id = static_cast<int>(i) + 1;
    return slivers;
}

} // namespace swarfbook

// Copyright 2026 The swarfbook authors
// SPDX-License-Identifier: Apache-2.0
#include "card/find_card.h"

#include "card/find_markers.h"
#include "card/fit_mapping.h"

#include <fmt/format.h>
#include <opencv2/calib3d.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace swarfbook {
namespace {

constexpr double steepest = 50.0; // degrees: at a steeper tilt one end of the card is out of focus,
                                  // and a piece's height adds more than itself to its length

constexpr double flatEnough = 0.5;  // mm of rise over the window: paper lying loosely; lengths then
                                    // differ by under 0.2 % (our own choice)
constexpr double surelyBent = 25.0; // chi-square of two terms: chance in 1 of 270 000 photos

using Markers = std::map<int, MarkerCorners>;

Refusal noCard(const std::string& detail) {
    return {RefusalReason::noCard, detail,
            "Lay the printed card flat round the debris, all of it in the picture, nothing on its "
            "markers, and take the photo again."};
}

struct Chosen {
    const CardLayout* layout = nullptr;
    Markers markers;
};

Result<Chosen> chooseLayout(const Markers& all, const std::vector<CardLayout>& layouts) {
    Chosen best;
    int layoutsSeen = 0;
    for (const CardLayout& layout : layouts) {
        Markers own;
        for (const auto& [id, corners] : all)
            if (layout.markers.contains(id))
                own[id] = corners;
        if (own.size() >= 2)
            ++layoutsSeen;
        if (own.size() > best.markers.size())
            best = {&layout, own};
    }
    if (layoutsSeen > 1)
        return Refusal{RefusalReason::mixedCards,
                       "Markers of two different cards are in the photo.",
                       "Leave only one card in the picture and take the photo again."};
    if (best.layout == nullptr)
        return noCard(all.empty() ? "No marker of a reference card was found in the photo."
                                  : "The markers in the photo are not those of a reference card.");
    return best;
}

int sidesSeen(const Chosen& chosen) {
    const CardRect& w = chosen.layout->window;
    bool left = false, right = false, top = false, bottom = false;
    for (const auto& [id, corners] : chosen.markers) {
        const PointOnCard c = chosen.layout->markers.at(id);
        left = left || c.x < w.x;
        right = right || c.x > w.x + w.width;
        top = top || c.y < w.y;
        bottom = bottom || c.y > w.y + w.height;
    }
    return static_cast<int>(left) + static_cast<int>(right) + static_cast<int>(top) +
           static_cast<int>(bottom);
}

/// Whether the markers span at least half of the window both ways. A single row or column touches
/// three sides with its ends but does not cover the far side.
bool spansWindow(const Chosen& chosen) {
    double x0 = 1e9, x1 = -1e9, y0 = 1e9, y1 = -1e9;
    for (const auto& [id, corners] : chosen.markers) {
        const PointOnCard c = chosen.layout->markers.at(id);
        x0 = std::min(x0, c.x);
        x1 = std::max(x1, c.x);
        y0 = std::min(y0, c.y);
        y1 = std::max(y1, c.y);
    }
    const CardRect& w = chosen.layout->window;
    return x1 - x0 >= w.width / 2 && y1 - y0 >= w.height / 2;
}

/// Plane homography from marker corners alone, as a start; normalised by focal and centre.
PlaneMapping startMapping(const Chosen& chosen, const Photo& photo) {
    std::vector<cv::Point2f> onCard;
    std::vector<cv::Point2f> inPhoto;
    const double half = chosen.layout->markerSize / 2.0;
    const std::array<cv::Point2d, 4> offset{
        {{-half, -half}, {half, -half}, {half, half}, {-half, half}}};
    PlaneMapping start;
    const double diagonal = std::hypot(photo.bgr.cols, photo.bgr.rows);
    constexpr double filmDiagonal = 43.2666; // mm of the 36 x 24 frame behind the EXIF equivalent
    const double focal35 = photo.facts.focalLength35Mm;
    start.focal = diagonal * (tellsFocalLength(photo.facts) ? focal35 / filmDiagonal : 0.62);
    start.centre = {(photo.bgr.cols - 1) / 2.0, (photo.bgr.rows - 1) / 2.0};
    for (const auto& [id, corners] : chosen.markers) {
        const PointOnCard c = chosen.layout->markers.at(id);
        for (std::size_t k = 0; k < 4; ++k) {
            onCard.emplace_back(static_cast<float>(c.x + offset[k].x),
                                static_cast<float>(c.y + offset[k].y));
            inPhoto.emplace_back(static_cast<float>((corners[k].x - start.centre.x) / start.focal),
                                 static_cast<float>((corners[k].y - start.centre.y) / start.focal));
        }
    }
    const cv::Mat h = cv::findHomography(onCard, inPhoto, cv::RANSAC, 12.0 / start.focal);
    start.h = h.empty() ? cv::Matx33d::zeros() : cv::Matx33d(h);
    return start;
}

bool windowInPhoto(const CardLayout& layout, const PlaneMapping& mapping, const cv::Mat& bgr) {
    const CardRect& w = layout.window;
    for (const double x : {w.x, w.x + w.width / 2, w.x + w.width})
        for (const double y : {w.y, w.y + w.height / 2, w.y + w.height}) {
            const PointInPhoto p = mapping.photoFromCard({x, y});
            if (!(p.u >= 0 && p.v >= 0 && p.u <= bgr.cols - 1 && p.v <= bgr.rows - 1))
                return false;
        }
    return true;
}

/// Angle between the camera's axis and the card's normal, from the homography's first two columns.
double tiltOf(const PlaneMapping& m, const CardRect& window) {
    const PointOnCard c{window.x + window.width / 2, window.y + window.height / 2};
    cv::Vec3d right(m.h(0, 0), m.h(1, 0), m.h(2, 0));
    cv::Vec3d down(m.h(0, 1), m.h(1, 1), m.h(2, 1));
    cv::Vec3d normal = right.cross(down);
    const cv::Vec3d toCentre = m.h * cv::Vec3d(c.x, c.y, 1.0);
    if (normal.dot(toCentre) < 0)
        normal = -normal;
    const double cosine = std::abs(normal[2]) / cv::norm(normal);
    return std::acos(std::min(1.0, cosine)) * 180.0 / CV_PI;
}

double meanScale(const PlaneMapping& m, const CardRect& w) {
    double sum = 0.0;
    for (int j = 0; j < 5; ++j)
        for (int i = 0; i < 5; ++i)
            sum += m.scaleAt({w.x + w.width * i / 4.0, w.y + w.height * j / 4.0}).value();
    return sum / 25.0;
}

Refusal cutOff() {
    return {RefusalReason::cardCutOff, "The card is in sight, but its window is not wholly in it.",
            "Step back or turn the phone until the whole card is in the picture, and take the "
            "photo again."};
}

double unevennessOf(const std::vector<CardEdge>& edges, const std::vector<EdgePoint>& points,
                    const MappingFit& fit) {
    std::map<int, std::pair<double, int>> byEdge;
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (!fit.owners.contains(edges[static_cast<std::size_t>(points[i].edge)].owner))
            continue;
        auto& [sum, n] = byEdge[points[i].edge];
        sum += fit.offsets[i];
        ++n;
    }
    double squares = 0.0;
    for (const auto& [edge, entry] : byEdge)
        squares += std::pow(entry.first / entry.second, 2);
    return byEdge.empty() ? 0.0 : std::sqrt(squares / static_cast<double>(byEdge.size()));
}

CardBend bendOf(const MappingFit& fit, const CardSighting& seen) {
    constexpr double even = 0.08; // mm: edges of a flat card lie within 0.02 (our own experiment)
    const bool bent = fit.bend.rise.value() > flatEnough && fit.bend.chiSquare > surelyBent;
    return {fit.bend.rise, fit.bend.riseU, bent || seen.unevenness > even};
}

/// A fit with the edge points it goes through; without owners where too few were found.
struct FitAndPoints {
    MappingFit fit;
    std::vector<EdgePoint> points;
};

/// The corners come from a picture reduced to about 1000 px, so the first search is wide and
/// coarse.
FitAndPoints fitToEdges(const cv::Mat& bgr, const std::vector<CardEdge>& edges,
                        const PlaneMapping& start, const CardRect& window) {
    const double reduced = std::max(1.0, std::max(bgr.cols, bgr.rows) / 1000.0);
    const EdgeSearch wide{Pixels(5.0 * reduced), 6}, close{Pixels(3.0 * reduced), 14};
    const auto isEnough = [](const std::vector<EdgePoint>& points, const EdgeSearch& search) {
        return points.size() >= static_cast<std::size_t>(16 * search.perEdge / 2);
    };
    FitAndPoints found;
    found.points = findEdgePoints(bgr, edges, start, wide);
    if (!isEnough(found.points, wide))
        return found;
    const PlaneMapping mapping = mappingThrough(edges, found.points, start, window);
    auto points = findEdgePoints(bgr, edges, mapping, close);
    if (isEnough(points, close))
        found.points = std::move(points);
    found.fit = fitMapping(edges, found.points, mapping, window);
    return found;
}

Result<CardSighting> sightingOf(const Photo& photo, const Chosen& chosen,
                                const PlaneMapping& start) {
    const auto edges = edgesOfCard(*chosen.layout);
    const auto [fit, points] = fitToEdges(photo.bgr, edges, start, chosen.layout->window);
    const PlaneMapping& mapping = fit.mapping;
    int markersUsed = 0;
    for (const int owner : fit.owners)
        markersUsed += owner > 0 ? 1 : 0;
    if (markersUsed < 4)
        return noCard(fmt::format("Only {} of the card's {} markers can be read sharply enough to "
                                  "measure by; 4 are needed.",
                                  markersUsed, chosen.layout->markers.size()));
    CardSighting seen;
    seen.layout = *chosen.layout;
    seen.mapping = mapping;
    seen.markersUsed = markersUsed;
    seen.residual = fit.residual;
    seen.tilt = Degrees(tiltOf(mapping, chosen.layout->window));
    seen.scale = PixelsPerMillimetre(meanScale(mapping, chosen.layout->window));
    seen.scaleUPercent = fit.scaleUPercent;
    seen.inkGrowth = fit.inkGrowth;
    seen.unevenness = unevennessOf(edges, points, fit) / seen.scale.value();
    seen.bend = bendOf(fit, seen);
    if (seen.bend.bent)
        seen.scaleUPercent = std::hypot(seen.scaleUPercent, fit.bend.lengthUPercent,
                                        100.0 * seen.unevenness / seen.layout.markerSize);
    return seen;
}

} // namespace

bool tellsFocalLength(const PhotoFacts& facts) {
    return facts.focalLength35Mm > 10.0 && facts.focalLength35Mm < 200.0;
}

Result<CardSighting> findCard(const Photo& photo, const std::vector<CardLayout>& layouts) {
    if (photo.bgr.empty() || photo.bgr.type() != CV_8UC3)
        throw std::logic_error("findCard wants an 8-bit colour photo");
    const auto chosen = chooseLayout(findMarkers(photo.bgr), layouts);
    if (!chosen)
        return chosen.error();
    const std::size_t count = chosen->markers.size();
    if (count < 2)
        return noCard("Only 1 of the card's markers was found in the photo; 4 are needed.");
    const PlaneMapping start = startMapping(*chosen, photo);
    const bool whole = start.h(2, 2) != 0.0 && windowInPhoto(*chosen->layout, start, photo.bgr);
    if (!whole)
        return cutOff();
    if (count < 4 || sidesSeen(*chosen) < 3 || !spansWindow(*chosen))
        return noCard(fmt::format("Only {} of the card's {} markers were found; at least 4 on at "
                                  "least 3 sides of the window are needed.",
                                  count, chosen->layout->markers.size()));
    auto seen = sightingOf(photo, *chosen, start);
    if (!seen)
        return seen;
    if (!windowInPhoto(seen->layout, seen->mapping, photo.bgr))
        return cutOff();
    if (seen->tilt.value() > steepest)
        return Refusal{
            RefusalReason::tooTilted,
            fmt::format("The card was photographed from {:.0f} degrees off the vertical; "
                        "{:.0f} is the most that can be measured.",
                        seen->tilt.value(), steepest),
            "Hold the phone level above the card and take the photo again."};
    return seen;
}

} // namespace swarfbook
